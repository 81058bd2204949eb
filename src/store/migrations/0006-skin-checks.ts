import { appendOnly } from './append-only.js';

/** What the skin under a device looked like; append-only like readings: a correction is the next revision. */
export const skinChecks = `
create table skin_checks (
  seq bigserial primary key,
  id text not null,
  revision integer not null default 1,
  corrects_seq bigint unique references skin_checks (seq),
  child_id text not null references children (id),
  device_id text references devices (id),
  date date not null,
  state text not null,
  data jsonb not null,
  withdrawn boolean not null default false,
  reason text not null default '',
  recorded_by text not null,
  recorded_at timestamptz not null default now(),
  unique (id, revision),
  check ((revision = 1) = (corrects_seq is null))
);
create index skin_checks_by_child on skin_checks (child_id, date);
create view current_skin_checks as select s.* from skin_checks s
  where not s.withdrawn and not exists (select 1 from skin_checks later where later.corrects_seq = s.seq);
${appendOnly('skin_checks')}
`;
