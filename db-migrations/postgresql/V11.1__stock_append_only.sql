-- What came to and went from the shelf is never changed or deleted, whoever holds the connection. The H2 file beside
-- says the same.
create trigger stock_entry_append_only before update or delete or truncate on stock_entry
  for each statement execute function append_only();
create trigger stock_entry_void_append_only before update or delete or truncate on stock_entry_void
  for each statement execute function append_only();
