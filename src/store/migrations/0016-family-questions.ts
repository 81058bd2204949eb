/** Questions a clinic asks through a family's link, the answer, and what the clinic made of it. */
export const familyQuestions = `
create table family_questions (
  id text primary key,
  child_id text not null references children (id),
  device_id text references devices (id),
  asked_by text not null,
  asked_at timestamptz not null,
  answered_at timestamptz,
  link_id text,
  toes text,
  marks text,
  place text not null default '',
  minutes integer,
  decided_at timestamptz,
  decided_by text,
  decision text,
  check ((answered_at is null) = (marks is null)),
  check (decided_at is null or answered_at is not null)
);
create unique index family_questions_open on family_questions (child_id) where answered_at is null;
create index family_questions_waiting on family_questions (answered_at) where decided_at is null;
`;
