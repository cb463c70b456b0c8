-- As V2; the H2 file beside says the same.
create trigger before_reading_append_only before update or delete or truncate on before_reading
  for each statement execute function append_only();
