-- As V2; the PostgreSQL file beside says the same.
create trigger swatch_append_only before update, delete on swatch
  for each row call 'org.tareline.weighing.AppendOnly';
