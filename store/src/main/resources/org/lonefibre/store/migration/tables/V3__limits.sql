create table limit_entry (
  sequence bigint primary key,
  kind text not null,
  name text not null,
  content text not null,
  reason text not null,
  actor text not null,
  decided_at text not null
);
