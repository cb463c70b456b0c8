-- How much room a part takes when it is packed (nothing: it takes none of the pack's), and what a
-- carrier's pack takes.
alter table part add column packed_volume_ml numeric(20, 10) check (packed_volume_ml >= 0);
alter table part add column packed_volume_typed varchar(200);
alter table part add column packed_length_nm bigint check (packed_length_nm > 0);
alter table part add column packed_length_typed varchar(200);

alter table trip_carrier add column pack_volume_ml numeric(20, 10) check (pack_volume_ml > 0);
alter table trip_carrier add column pack_volume_typed varchar(200);
alter table trip_carrier add column pack_length_nm bigint check (pack_length_nm > 0);
alter table trip_carrier add column pack_length_typed varchar(200);

-- What the base weight of a trip is to be at most.
alter table trip add column target_base_ng bigint check (target_base_ng > 0);
alter table trip add column target_base_typed varchar(200);

-- How often it was written down what came of a trip.
alter table trip add column afterwards_revision integer default 0 not null check (afterwards_revision >= 0);
