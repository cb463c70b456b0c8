-- As V2; the H2 file beside says the same.
create trigger packing_check_append_only before update or delete or truncate on packing_check
  for each statement execute function append_only();
