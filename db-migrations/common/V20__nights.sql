-- How cold a night a quilt, pad or piece of clothing is stated for, and how cold one a trip expects.
alter table part add column comfort_typed varchar(200);
alter table part add column comfort_kind varchar(20);
alter table part add column insulates varchar(20);
alter table trip add column coldest_night_typed varchar(200);
