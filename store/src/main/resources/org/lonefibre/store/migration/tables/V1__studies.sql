create table recording (
  sha256 text primary key,
  extension text not null,
  size_bytes bigint not null,
  kept_at text not null
);

create table study (
  id text primary key,
  title text not null,
  subject_code text,
  provenance text not null,
  created_at text not null,
  changed_at text not null,
  revision bigint not null
);

create table study_recording (
  study_id text not null references study (id),
  position integer not null,
  sha256 text not null references recording (sha256),
  file_name text not null,
  primary key (study_id, position)
);

create table document (
  study_id text not null references study (id),
  kind text not null,
  number integer not null,
  content text not null,
  sha256 text not null,
  created_at text not null,
  primary key (study_id, kind, number)
);

create table decision (
  study_id text not null references study (id),
  sequence integer not null,
  site text not null,
  step_name text not null,
  content text not null,
  reason text not null,
  actor text not null,
  decided_at text not null,
  state text not null,
  primary key (study_id, sequence)
);

create table note (
  study_id text not null references study (id),
  field text not null,
  content text not null,
  changed_at text not null,
  primary key (study_id, field)
);

create table signature (
  study_id text not null references study (id),
  version integer not null,
  content text not null,
  sha256 text not null,
  seal text not null,
  public_key text not null,
  signer text not null,
  meaning text not null,
  signed_at text not null,
  revision bigint not null,
  primary key (study_id, version)
);

create table change_record (
  sequence bigint primary key,
  changed_at text not null,
  actor text not null,
  subject text not null,
  action text not null,
  from_value text not null,
  to_value text not null,
  reason text not null,
  previous_hash text not null,
  hash text not null
);
