-- A thing that was sewn on is weighed by difference: these are the readings of what it was sewn onto, before.
create table before_reading (
  weighing_id bigint not null,
  ledger_id bigint not null,
  position integer not null,
  reading_ng bigint not null check (reading_ng > 0),
  typed varchar(200) not null,
  primary key (weighing_id, position),
  foreign key (ledger_id, weighing_id) references weighing (ledger_id, id)
);

-- Whether other things lay on the pan with it, so that the weighing says their sum.
alter table weighing_subject add column together boolean default false not null;
create index weighing_subject_together on weighing_subject
  (ledger_id, kind, subject_id, together, weighed_at desc, weighing_id desc);
create index weighing_subject_piece on weighing_subject
  (ledger_id, kind, subject_id, piece, weighed_at desc, weighing_id desc);
