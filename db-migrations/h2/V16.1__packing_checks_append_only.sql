-- As V2; the PostgreSQL file beside says the same.
create trigger packing_check_append_only before update, delete on packing_check
  for each row call 'org.tareline.weighing.AppendOnly';
