import { appendOnly } from './append-only.js';

/**
 * What is derived (assessments, forecasts, recall lists; each row names its inputs, model version and seed), what people
 * do with the recall list, what the clinic set and signed, and what the service itself needs (accounts, sessions, links,
 * imports, progress). Every entry of a recall list has a brief: the entry without what only its own line shows, a tenth of it.
 */
const tables = `
create table assessments (
  child_id text primary key references children (id),
  today date not null,
  data jsonb not null,
  soonest jsonb,
  soonest_key date,
  inputs_hash text not null,
  model_name text not null,
  model_version text not null,
  seed bigint not null,
  computed_at timestamptz not null default now()
);
create index assessments_by_soonest on assessments (soonest_key, child_id);

create table forecast_history (
  seq bigserial primary key,
  device_id text not null,
  child_id text not null references children (id),
  family text not null,
  today date not null,
  month date not null,
  outcome text not null,
  p10 date,
  p50 date,
  p90 date,
  inputs_hash text not null,
  model_version text not null,
  seed bigint not null,
  made_on date,
  unique (device_id, month, inputs_hash, model_version)
);
create index forecast_history_by_child on forecast_history (child_id);

create table recall_runs (
  id text primary key,
  seq bigserial unique,
  today date not null,
  month date not null,
  summary jsonb not null default '{}',
  inputs_hash text not null default '',
  model_name text not null default '',
  model_version text not null default '',
  seed bigint not null default 0,
  created_at timestamptz not null default now()
);

create table recall_entries (
  id text primary key,
  run_id text not null references recall_runs (id) on delete cascade,
  position integer not null,
  list text not null,
  child_id text not null references children (id),
  action text not null,
  overdue boolean not null,
  data jsonb not null,
  state text not null default 'to-call',
  version integer not null default 1,
  appointment date,
  brief jsonb not null,
  unique (run_id, position)
);
create index recall_entries_by_child on recall_entries (child_id);
create function brief_of_entry() returns trigger language plpgsql as $$
begin
  new.brief := new.data - array['devices', 'otherDevices', 'reason', 'weekReason'];
  return new;
end $$;
create trigger brief_of_entry before insert or update of data on recall_entries
  for each row execute function brief_of_entry();

create table recall_state_changes (
  seq bigserial primary key,
  entry_id text not null references recall_entries (id) on delete cascade,
  child_id text not null,
  from_state text not null,
  to_state text not null,
  note text not null,
  by_name text not null,
  at timestamptz not null default now(),
  undoes_seq bigint unique references recall_state_changes (seq),
  from_appointment date
);
create index recall_state_changes_by_entry on recall_state_changes (entry_id, seq);
${appendOnly('recall_state_changes')}

create table users (
  id text primary key,
  name text not null unique,
  display_name text not null,
  role text not null,
  password_hash text,
  oidc_issuer text,
  oidc_subject text,
  disabled boolean not null default false,
  password_by_other boolean not null default false,
  version integer not null default 1,
  created_at timestamptz not null default now(),
  unique (oidc_issuer, oidc_subject)
);

create table sign_in_tries (
  account text primary key,
  tries integer not null,
  locked_until timestamptz,
  last_at timestamptz not null
);

create table sessions (
  id_hash text primary key,
  data jsonb not null,
  expires_at timestamptz not null
);

create table access_tokens (
  token_hash text primary key,
  user_id text not null references users (id),
  expires_at timestamptz not null,
  created_at timestamptz not null default now()
);

create table family_links (
  id text primary key,
  child_id text not null references children (id),
  label text not null,
  expires_at timestamptz not null,
  withdrawn_at timestamptz,
  created_by text not null,
  created_at timestamptz not null default now(),
  last_used_at timestamptz
);
create index family_links_by_child on family_links (child_id);

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

create table settings (
  name text primary key,
  value jsonb not null,
  version integer not null default 1,
  updated_by text not null,
  updated_at timestamptz not null default now()
);

create table fit_limit_changes (
  seq bigserial primary key,
  version integer not null,
  family text not null,
  measure text not null,
  figure text not null,
  mm double precision check (mm >= 0),
  before_mm double precision not null,
  reason text not null,
  changed_by text not null,
  changed_at timestamptz not null default now(),
  unique (version, family, measure, figure)
);
create index fit_limit_changes_by_figure on fit_limit_changes (family, measure, figure, seq);
${appendOnly('fit_limit_changes')}

create table sign_offs (
  seq bigserial primary key,
  subject text not null,
  content text not null,
  signed_name text not null,
  profession text not null,
  signed_by text not null,
  signed_at timestamptz not null default now()
);
create index sign_offs_by_subject on sign_offs (subject, seq);
${appendOnly('sign_offs')}

create table population_offsets (
  seq bigserial primary key,
  learned_on date not null,
  model_name text not null,
  model_version text not null,
  children integer not null,
  offsets jsonb not null,
  unique (learned_on, model_name, model_version)
);

create table secrets (
  name text primary key,
  value text not null
);

create table idempotency_keys (
  user_id text not null,
  key text not null,
  request_hash text not null,
  status integer,
  headers jsonb,
  body text,
  created_at timestamptz not null default now(),
  primary key (user_id, key)
);

create table imports (
  id text primary key,
  status text not null,
  plan jsonb not null,
  files bytea,
  options jsonb not null default '{}',
  added jsonb,
  kept boolean not null default true,
  created_by text not null,
  created_at timestamptz not null default now(),
  committed_at timestamptz
);
create table import_rows (
  import_id text not null references imports (id) on delete cascade,
  seq integer not null,
  part text not null,
  record_id text not null,
  data jsonb not null,
  primary key (import_id, seq)
);
create table sheet_answers (
  sheet text not null,
  question text not null,
  asks text not null,
  headings text not null,
  answer text not null,
  updated_by text not null,
  updated_at timestamptz not null default now(),
  primary key (sheet, question)
);

create table job_runs (
  id text primary key,
  seq bigserial unique,
  kind text not null,
  status text not null,
  done integer not null default 0,
  total integer not null default 0,
  message text not null default '',
  started_at timestamptz not null default now(),
  finished_at timestamptz
);
create table job_run_parts (
  run_id text not null references job_runs (id) on delete cascade,
  part integer not null,
  primary key (run_id, part)
);

create table record_changes (
  seq bigserial primary key,
  table_name text not null,
  at timestamptz not null default now()
);
create index record_changes_by_table on record_changes (table_name, seq);
create function note_change() returns trigger language plpgsql as $$
begin
  insert into record_changes (table_name) values (tg_table_name);
  return null;
end $$;
`;

/**
 * Every statement that changes one of these leaves a row behind, so that asking whether anything has changed reads a
 * few rows and not the tables.
 */
const noted = [
  'children',
  'measurements',
  'devices',
  'device_events',
  'workshop_jobs',
  'forecast_history',
  'assessments',
  'recall_runs',
  'recall_entries',
].map(
  (table) =>
    `create trigger note_change after insert or update or delete on ${table} for each statement execute function note_change();`,
);

export const derivedAndWork = [tables, ...noted].join('\n');
