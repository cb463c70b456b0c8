-- Who carries what on a trip, what of a rig stays at home or is stood in for, and how a consumable
-- is used up day by day.
alter table trip_line add column carrier varchar(60);
alter table trip_line add column system varchar(20);
alter table trip_line add column per_day_ng bigint check (per_day_ng > 0);
alter table trip_line add column per_day_typed varchar(200);
alter table trip_line add column density_g_per_ml numeric(20, 10) check (density_g_per_ml > 0);
alter table trip_line add column density_typed varchar(200);
alter table trip_line add constraint trip_line_of_ledger unique (ledger_id, id);

create table trip_carrier (
  trip_id bigint not null,
  ledger_id bigint not null,
  position integer not null,
  code varchar(60) not null,
  code_key varchar(60) not null,
  name varchar(200) not null,
  body_ng bigint check (body_ng > 0),
  body_typed varchar(200),
  primary key (trip_id, code_key),
  foreign key (ledger_id, trip_id) references trip (ledger_id, id)
);

create table trip_line_left_at_home (
  trip_line_id bigint not null,
  ledger_id bigint not null,
  position integer not null,
  part_id bigint not null,
  primary key (trip_line_id, part_id),
  foreign key (ledger_id, trip_line_id) references trip_line (ledger_id, id),
  foreign key (ledger_id, part_id) references part (ledger_id, id)
);

create table trip_line_stand_in (
  trip_line_id bigint not null,
  ledger_id bigint not null,
  position integer not null,
  rig_id bigint not null,
  part_id bigint not null,
  primary key (trip_line_id, position),
  foreign key (ledger_id, trip_line_id) references trip_line (ledger_id, id),
  foreign key (ledger_id, rig_id) references rig (ledger_id, id),
  foreign key (ledger_id, part_id) references part (ledger_id, id)
);

create table trip_line_amount (
  trip_line_id bigint not null,
  ledger_id bigint not null,
  kind varchar(20) not null check (kind in ('taken', 'used')),
  on_day integer not null check (on_day > 0),
  amount_ng bigint not null check (amount_ng >= 0),
  typed varchar(200) not null,
  primary key (trip_line_id, kind, on_day),
  foreign key (ledger_id, trip_line_id) references trip_line (ledger_id, id)
);
