import { appendOnly } from './append-only.js';

/**
 * What is derived (assessments, forecasts, recall lists; each row names its inputs, model version and seed), what people
 * do with the recall list, and what the service itself needs (accounts, sessions, links, imports, progress).
 */
export const derivedAndWork = `
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
  unique (run_id, position)
);
create index recall_entries_by_child on recall_entries (child_id);

create table recall_state_changes (
  seq bigserial primary key,
  entry_id text not null references recall_entries (id) on delete cascade,
  child_id text not null,
  from_state text not null,
  to_state text not null,
  note text not null,
  by_name text not null,
  at timestamptz not null default now(),
  undoes_seq bigint unique references recall_state_changes (seq)
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
  version integer not null default 1,
  created_at timestamptz not null default now(),
  unique (oidc_issuer, oidc_subject)
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

create table settings (
  name text primary key,
  value jsonb not null,
  version integer not null default 1,
  updated_by text not null,
  updated_at timestamptz not null default now()
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
  caseload jsonb,
  plan jsonb not null,
  created_by text not null,
  created_at timestamptz not null default now(),
  committed_at timestamptz
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
`;
