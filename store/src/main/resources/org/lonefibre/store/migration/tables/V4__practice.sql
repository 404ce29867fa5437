create table practice_answer (
  person text not null,
  round bigint not null,
  number integer not null,
  answered_at text not null,
  kind text not null,
  given text not null,
  expected text not null,
  score_percent integer not null,
  content text not null,
  primary key (person, round, number)
);
