-- Whether a part may have no usable weighing that stands, so that the few that have none are found without a look at
-- all others. True may be too much said, and is looked into where it is read; false may not.
alter table part add column waits boolean default true not null;
update part set waits = false where exists (
  select 1 from weighing_subject o
  where o.ledger_id = part.ledger_id and o.kind = 'part' and o.subject_id = part.id and o.usable = true
    and not exists (select 1 from weighing_void v where v.weighing_id = o.weighing_id));
create index part_waits on part (ledger_id, waits, code_key);
