-- As V2: the PostgreSQL file beside says the same.
create trigger scale_check_append_only before update, delete on scale_check
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger scale_check_reading_append_only before update, delete on scale_check_reading
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger scale_check_void_append_only before update, delete on scale_check_void
  for each row call 'org.tareline.weighing.AppendOnly';
