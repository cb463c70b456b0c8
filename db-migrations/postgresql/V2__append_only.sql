-- What a reading said is never changed or deleted, whoever holds the connection. The H2 file beside says the same.
create function append_only() returns trigger language plpgsql as $$
begin
  raise exception 'weighings are append-only: strike one out instead of changing it';
end
$$;
create trigger weighing_append_only before update or delete or truncate on weighing
  for each statement execute function append_only();
create trigger reading_append_only before update or delete or truncate on reading
  for each statement execute function append_only();
create trigger weighing_subject_append_only before update or delete or truncate on weighing_subject
  for each statement execute function append_only();
create trigger weighing_void_append_only before update or delete or truncate on weighing_void
  for each statement execute function append_only();
