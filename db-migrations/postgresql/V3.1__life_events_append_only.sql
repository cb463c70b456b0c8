-- What happened to a part is never changed or deleted, whoever holds the connection. The H2 file beside says the same.
create or replace function append_only() returns trigger language plpgsql as $$
begin
  raise exception 'what was written down is append-only: strike it out instead of changing it';
end
$$;
create trigger life_event_append_only before update or delete or truncate on life_event
  for each statement execute function append_only();
create trigger life_event_void_append_only before update or delete or truncate on life_event_void
  for each statement execute function append_only();
