-- As V2: the H2 file beside says the same.
create trigger scale_check_append_only before update or delete or truncate on scale_check
  for each statement execute function append_only();
create trigger scale_check_reading_append_only before update or delete or truncate on scale_check_reading
  for each statement execute function append_only();
create trigger scale_check_void_append_only before update or delete or truncate on scale_check_void
  for each statement execute function append_only();
