-- Who is signed in in which browser, so that any server on this database knows. A session is an account's and goes from
-- one ledger to another, so it belongs to none. Names and types of the columns are those that Spring Session asks for.
create table session (
  primary_id char(36) not null primary key,
  session_id char(36) not null unique,
  creation_time bigint not null,
  last_access_time bigint not null,
  max_inactive_interval integer not null,
  expiry_time bigint not null,
  principal_name varchar(100)
);

create index session_by_expiry_time on session (expiry_time);

create table session_attributes (
  session_primary_id char(36) not null references session (primary_id) on delete cascade,
  attribute_name varchar(200) not null,
  attribute_bytes bytea not null,
  primary key (session_primary_id, attribute_name)
);
