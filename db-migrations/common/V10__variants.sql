-- A second design of the same thing names the first. It does so from the day it is made, and for good.
alter table part add column variant_of_id bigint;
alter table part add constraint part_variant_of foreign key (ledger_id, variant_of_id) references part (ledger_id, id);
alter table part add constraint part_not_of_itself check (variant_of_id <> id);
create index part_variant on part (ledger_id, variant_of_id);

alter table rig add column variant_of_id bigint;
alter table rig add constraint rig_variant_of foreign key (ledger_id, variant_of_id) references rig (ledger_id, id);
alter table rig add constraint rig_not_of_itself check (variant_of_id <> id);
create index rig_variant on rig (ledger_id, variant_of_id);
