import { appendOnly } from './append-only.js';

/**
 * What people entered. Readings, markers, skin checks and device events are append-only: a row is never changed, a correction is the
 * next revision of the same id and names the row it corrects. Children, devices and workshop jobs change in place; what
 * they were is kept in record_history. Only an erasure of one child, declared in its transaction, may delete.
 */
const tables = `
create table children (
  id text primary key,
  name_key text not null,
  birth_date date not null,
  status text not null,
  data jsonb not null,
  version integer not null default 1,
  created_at timestamptz not null default now(),
  updated_at timestamptz not null default now()
);
create index children_by_name on children (name_key, id);
create index children_by_sibling_group on children ((data ->> 'siblingGroup'));

create table tombstones (
  child_id text primary key,
  erased_at timestamptz not null default now(),
  erased_by text not null,
  reason text not null
);

create table measurements (
  seq bigserial primary key,
  id text not null,
  revision integer not null default 1,
  corrects_seq bigint unique references measurements (seq),
  child_id text not null references children (id),
  measure text not null,
  side text not null,
  value double precision not null check (value > 0),
  date date not null,
  method text not null,
  observer text not null,
  technical_error double precision,
  entered text not null,
  extra jsonb not null,
  withdrawn boolean not null default false,
  reason text not null default '',
  recorded_by text not null,
  recorded_at timestamptz not null default now(),
  unique (id, revision),
  check ((revision = 1) = (corrects_seq is null))
);
create index measurements_by_child on measurements (child_id, date);

create table markers (
  seq bigserial primary key,
  id text not null,
  revision integer not null default 1,
  corrects_seq bigint unique references markers (seq),
  child_id text not null references children (id),
  date date not null,
  kind text not null,
  value double precision not null,
  sd_years double precision,
  withdrawn boolean not null default false,
  reason text not null default '',
  recorded_by text not null,
  recorded_at timestamptz not null default now(),
  unique (id, revision)
);
create index markers_by_child on markers (child_id);

create table devices (
  id text primary key,
  child_id text not null references children (id),
  family text not null,
  status text not null,
  data jsonb not null,
  version integer not null default 1,
  updated_at timestamptz not null default now()
);
create index devices_by_child on devices (child_id);

create table device_events (
  seq bigserial primary key,
  id text not null,
  revision integer not null default 1,
  corrects_seq bigint unique references device_events (seq),
  child_id text not null references children (id),
  device_id text not null references devices (id),
  date date not null,
  data jsonb not null,
  withdrawn boolean not null default false,
  reason text not null default '',
  recorded_by text not null,
  recorded_at timestamptz not null default now(),
  unique (id, revision)
);
create index device_events_by_child on device_events (child_id);

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

create table workshop_jobs (
  id text primary key,
  child_id text not null references children (id),
  device_id text not null references devices (id),
  status text not null,
  data jsonb not null,
  version integer not null default 1,
  updated_at timestamptz not null default now()
);
create index workshop_jobs_by_child on workshop_jobs (child_id);

create table record_history (
  seq bigserial primary key,
  record text not null,
  id text not null,
  child_id text not null,
  version integer not null,
  data jsonb not null,
  replaced_at timestamptz not null default now()
);
create index record_history_by_child on record_history (child_id);

create function keep_what_it_was() returns trigger language plpgsql as $$
begin
  insert into record_history (record, id, child_id, version, data)
  values (tg_table_name, old.id, case when tg_table_name = 'children' then old.id else to_jsonb(old) ->> 'child_id' end,
          old.version, old.data);
  return new;
end $$;
create trigger keep_children before update on children for each row execute function keep_what_it_was();
create trigger keep_devices before update on devices for each row execute function keep_what_it_was();
create trigger keep_workshop_jobs before update on workshop_jobs for each row execute function keep_what_it_was();

create function append_only() returns trigger language plpgsql as $$
begin
  if tg_op = 'DELETE' and tg_table_name not in ('audit', 'tombstones') and to_jsonb(old) ->> 'child_id' = current_setting('doorpost.erasing', true) then
    return old;
  end if;
  raise exception '% is append-only: % refused', tg_table_name, tg_op using errcode = 'restrict_violation';
end $$;

create table audit (
  seq bigserial primary key,
  at timestamptz not null default now(),
  user_id text not null,
  user_name text not null,
  role text not null,
  action text not null,
  resource text not null,
  child_id text,
  detail jsonb not null,
  request_id text,
  child_ids text[]
);
create index audit_by_child on audit (child_id, seq);
create index audit_by_user on audit (user_id, seq);
create index audit_by_children on audit using gin (child_ids);
revoke update, delete, truncate on audit from current_user, public;
`;

/** Corrected by the next revision, never changed. */
const revised = ['measurements', 'markers', 'device_events', 'skin_checks'];

/**
 * The revisions that count: one is passed over where another corrects it. Said of those alone that correct one, whoever
 * reads a whole clinic looks at the few corrections and not at every row a second time.
 */
const current = revised.map(
  (table) => `create view current_${table} as select t.* from ${table} t
      where not t.withdrawn and not exists (
        select 1 from ${table} later where later.corrects_seq = t.seq and later.corrects_seq is not null);`,
);

const kept = [...revised, 'record_history', 'audit', 'tombstones'].map(appendOnly);

export const groundState = [tables, ...current, ...kept].join('\n');
