-- What came to and went from the shelf is never changed or deleted, whoever holds the connection. The PostgreSQL file
-- beside says the same.
create trigger stock_entry_append_only before update, delete on stock_entry
  for each row call 'org.tareline.weighing.AppendOnly';
create trigger stock_entry_void_append_only before update, delete on stock_entry_void
  for each row call 'org.tareline.weighing.AppendOnly';
