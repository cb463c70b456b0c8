-- How far each tree comes in, and by how much an end settles, as typed. Null: not said.
alter table rig_loads add column tree_gives varchar(200);
alter table rig_loads add column settles varchar(200);
