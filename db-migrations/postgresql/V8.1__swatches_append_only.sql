-- As V2; the H2 file beside says the same.
create trigger swatch_append_only before update or delete or truncate on swatch
  for each statement execute function append_only();
