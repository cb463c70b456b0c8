-- As V2; the PostgreSQL file beside says the same.
create trigger before_reading_append_only before update, delete on before_reading
  for each row call 'org.tareline.weighing.AppendOnly';
