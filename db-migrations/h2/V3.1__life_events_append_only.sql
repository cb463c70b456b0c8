-- What happened to a part is never changed or deleted, whoever holds the connection. The PostgreSQL file beside says
-- the same.
create trigger life_event_append_only before update, delete on life_event
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger life_event_void_append_only before update, delete on life_event_void
  for each row call 'org.tareline.weighing.AppendOnly';
