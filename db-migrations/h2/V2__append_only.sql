-- What a reading said is never changed or deleted, whoever holds the connection. The PostgreSQL file beside says the same.
create trigger weighing_append_only before update, delete on weighing
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger reading_append_only before update, delete on reading
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger weighing_subject_append_only before update, delete on weighing_subject
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger weighing_void_append_only before update, delete on weighing_void
  for each row call 'org.tareline.weighing.AppendOnly';
