-- A clinic of before the steps became one: what 0001 to 0035 did, one after another, with two invented children.
-- Never changed, whatever a migration says now.
create table kysely_migration (name varchar(255) primary key, timestamp varchar(255) not null);
create table kysely_migration_lock (id varchar(255) primary key, is_locked integer not null default 0);
insert into kysely_migration_lock values ('migration_lock', 0);

-- 0001-ground-state
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

create view current_measurements as select m.* from measurements m
  where not m.withdrawn and not exists (select 1 from measurements later where later.corrects_seq = m.seq);
create view current_markers as select m.* from markers m
  where not m.withdrawn and not exists (select 1 from markers later where later.corrects_seq = m.seq);
create view current_device_events as select e.* from device_events e
  where not e.withdrawn and not exists (select 1 from device_events later where later.corrects_seq = e.seq);

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
  request_id text
);
create index audit_by_child on audit (child_id, seq);
create index audit_by_user on audit (user_id, seq);

create trigger append_only before update or delete on measurements for each row execute function append_only();
create trigger no_truncate before truncate on measurements for each statement execute function append_only();

create trigger append_only before update or delete on markers for each row execute function append_only();
create trigger no_truncate before truncate on markers for each statement execute function append_only();

create trigger append_only before update or delete on device_events for each row execute function append_only();
create trigger no_truncate before truncate on device_events for each statement execute function append_only();

create trigger append_only before update or delete on record_history for each row execute function append_only();
create trigger no_truncate before truncate on record_history for each statement execute function append_only();

create trigger append_only before update or delete on audit for each row execute function append_only();
create trigger no_truncate before truncate on audit for each statement execute function append_only();

create trigger append_only before update or delete on tombstones for each row execute function append_only();
create trigger no_truncate before truncate on tombstones for each statement execute function append_only();
insert into kysely_migration values ('0001-ground-state', '2026-11-28T21:00:00.000Z');

-- 0002-derived-and-work
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

create trigger append_only before update or delete on recall_state_changes for each row execute function append_only();
create trigger no_truncate before truncate on recall_state_changes for each statement execute function append_only();


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
insert into kysely_migration values ('0002-derived-and-work', '2026-11-28T21:00:00.000Z');

-- 0003-appointments
alter table recall_entries add column appointment date;
alter table recall_state_changes add column from_appointment date;
update children set data = data || '{"clinician": ""}' where not data ? 'clinician';
insert into kysely_migration values ('0003-appointments', '2026-11-28T21:00:00.000Z');

-- 0004-clinic-fit-rules
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

create trigger append_only before update or delete on fit_limit_changes for each row execute function append_only();
create trigger no_truncate before truncate on fit_limit_changes for each statement execute function append_only();
insert into kysely_migration values ('0004-clinic-fit-rules', '2026-11-28T21:00:00.000Z');

-- 0005-doors
alter table audit add column child_ids text[];
create index audit_by_children on audit using gin (child_ids);
revoke update, delete, truncate on audit from current_user, public;

create table sign_in_tries (
  account text primary key,
  tries integer not null,
  locked_until timestamptz,
  last_at timestamptz not null
);
insert into kysely_migration values ('0005-doors', '2026-11-28T21:00:00.000Z');

-- 0006-skin-checks
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

create trigger append_only before update or delete on skin_checks for each row execute function append_only();
create trigger no_truncate before truncate on skin_checks for each statement execute function append_only();
insert into kysely_migration values ('0006-skin-checks', '2026-11-28T21:00:00.000Z');

-- 0008-device-replaces
update devices set data = data || '{"replaces": null}' where not data ? 'replaces';
insert into kysely_migration values ('0008-device-replaces', '2026-11-28T21:00:00.000Z');

-- 0010-sheet-answers
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
alter table imports add column files bytea;
alter table imports add column options jsonb not null default '{}';
alter table imports add column added jsonb;
insert into kysely_migration values ('0010-sheet-answers', '2026-11-28T21:00:00.000Z');

-- 0016-family-questions
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
insert into kysely_migration values ('0016-family-questions', '2026-11-28T21:00:00.000Z');

-- 0020-population-offsets
create table population_offsets (
  seq bigserial primary key,
  learned_on date not null,
  model_name text not null,
  model_version text not null,
  children integer not null,
  offsets jsonb not null,
  unique (learned_on, model_name, model_version)
);
insert into kysely_migration values ('0020-population-offsets', '2026-11-28T21:00:00.000Z');

-- 0021-sign-offs
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

create trigger append_only before update or delete on sign_offs for each row execute function append_only();
create trigger no_truncate before truncate on sign_offs for each statement execute function append_only();
insert into kysely_migration values ('0021-sign-offs', '2026-11-28T21:00:00.000Z');

-- 0027-first-password
alter table users add column password_by_other boolean not null default false;
insert into kysely_migration values ('0027-first-password', '2026-11-28T21:00:00.000Z');

-- 0032-changes-and-briefs
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

alter table recall_entries add column brief jsonb;
create function brief_of_entry() returns trigger language plpgsql as $$
begin
  new.brief := new.data - array['devices', 'otherDevices', 'reason', 'weekReason'];
  return new;
end $$;
create trigger brief_of_entry before insert or update of data on recall_entries
  for each row execute function brief_of_entry();
update recall_entries set data = data;
alter table recall_entries alter column brief set not null;
create trigger note_change after insert or update or delete on children for each statement execute function note_change();
create trigger note_change after insert or update or delete on measurements for each statement execute function note_change();
create trigger note_change after insert or update or delete on devices for each statement execute function note_change();
create trigger note_change after insert or update or delete on device_events for each statement execute function note_change();
create trigger note_change after insert or update or delete on workshop_jobs for each statement execute function note_change();
create trigger note_change after insert or update or delete on forecast_history for each statement execute function note_change();
create trigger note_change after insert or update or delete on assessments for each statement execute function note_change();
create trigger note_change after insert or update or delete on recall_runs for each statement execute function note_change();
create trigger note_change after insert or update or delete on recall_entries for each statement execute function note_change();
insert into kysely_migration values ('0032-changes-and-briefs', '2026-11-28T21:00:00.000Z');

-- 0033-look-back
alter table forecast_history add column made_on date;
insert into kysely_migration values ('0033-look-back', '2026-11-28T21:00:00.000Z');

-- 0034-current-rows
create or replace view current_measurements as select t.* from measurements t
      where not t.withdrawn and not exists (
        select 1 from measurements later where later.corrects_seq = t.seq and later.corrects_seq is not null);
create or replace view current_markers as select t.* from markers t
      where not t.withdrawn and not exists (
        select 1 from markers later where later.corrects_seq = t.seq and later.corrects_seq is not null);
create or replace view current_device_events as select t.* from device_events t
      where not t.withdrawn and not exists (
        select 1 from device_events later where later.corrects_seq = t.seq and later.corrects_seq is not null);
create or replace view current_skin_checks as select t.* from skin_checks t
      where not t.withdrawn and not exists (
        select 1 from skin_checks later where later.corrects_seq = t.seq and later.corrects_seq is not null);
insert into kysely_migration values ('0034-current-rows', '2026-11-28T21:00:00.000Z');

-- 0035-import-rows
create table import_rows (
  import_id text not null references imports (id) on delete cascade,
  seq integer not null,
  part text not null,
  record_id text not null,
  data jsonb not null,
  primary key (import_id, seq)
);
insert into import_rows
  select i.id, row_number() over (partition by i.id order by array_position(
      array['children', 'measurements', 'markers', 'devices', 'events', 'jobs', 'skinChecks'], p.key), r.n),
    p.key, r.value ->> 'id', r.value
  from imports i, jsonb_each(i.caseload) p, jsonb_array_elements(p.value) with ordinality r (value, n);
alter table imports add column kept boolean not null default true;
update imports set kept = false where caseload is null;
alter table imports drop column caseload;
insert into kysely_migration values ('0035-import-rows', '2026-11-28T21:00:00.000Z');

insert into children values ('c0', 'invented child c0', '2018-03-01', 'active', '{"id": "c0", "sex": "male", "name": "Invented Child c0", "extra": {}, "walks": true, "status": "active", "contact": "call c0", "language": "en", "birthDate": "2018-03-01", "clinician": "", "conditions": ["cerebral-palsy"], "latexAlert": false, "palliative": false, "affectedSide": "none", "siblingGroup": null, "insensateSkin": false, "transportDays": [], "gestationWeeks": null, "prefersHolidays": false}', 1, '2026-11-27 09:04:18.531069+00', '2026-11-27 09:04:18.531069+00');
insert into children values ('c1', 'invented child c1', '2018-03-01', 'active', '{"id": "c1", "sex": "female", "name": "Invented Child c1", "extra": {}, "walks": true, "status": "active", "contact": "call c1", "language": "en", "birthDate": "2018-03-01", "clinician": "", "conditions": ["cerebral-palsy"], "latexAlert": false, "palliative": false, "affectedSide": "none", "siblingGroup": null, "insensateSkin": false, "transportDays": [], "gestationWeeks": null, "prefersHolidays": false}', 1, '2026-11-27 09:04:18.531069+00', '2026-11-27 09:04:18.531069+00');
insert into devices values ('c0-d', 'c0', 'solid-afo', 'worn', '{"id": "c0-d", "side": "left", "extra": {}, "family": "solid-afo", "status": "worn", "childId": "c0", "castDate": "2025-06-02", "limitsMm": {}, "replaces": null, "footplate": "full", "fittedDate": "2025-06-23", "allowancesMm": {}, "extensionRangeMm": {}}', 1, '2026-11-27 09:04:18.531069+00');
insert into devices values ('c1-d', 'c1', 'solid-afo', 'worn', '{"id": "c1-d", "side": "left", "extra": {}, "family": "solid-afo", "status": "worn", "childId": "c1", "castDate": "2025-06-02", "limitsMm": {}, "replaces": null, "footplate": "full", "fittedDate": "2025-06-23", "allowancesMm": {}, "extensionRangeMm": {}}', 1, '2026-11-27 09:04:18.531069+00');
insert into device_events values (1, 'c0-e', 1, NULL, 'c0', 'c0-d', '2025-06-23', '{"id": "c0-e", "date": "2025-06-23", "kind": "delivered", "note": "", "side": null, "measure": null, "verdict": null, "changeMm": null, "deviceId": "c0-d", "endReason": null, "adjustment": null}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into device_events values (2, 'c1-e', 1, NULL, 'c1', 'c1-d', '2025-06-23', '{"id": "c1-e", "date": "2025-06-23", "kind": "delivered", "note": "", "side": null, "measure": null, "verdict": null, "changeMm": null, "deviceId": "c1-d", "endReason": null, "adjustment": null}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (1, 'c0-m0left', 1, NULL, 'c0', 'foot_length', 'left', 178, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (2, 'c0-m0right', 1, NULL, 'c0', 'foot_length', 'right', 179, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (3, 'c0-m1left', 1, NULL, 'c0', 'foot_length', 'left', 184, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (4, 'c0-m1right', 1, NULL, 'c0', 'foot_length', 'right', 185, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (5, 'c1-m0left', 1, NULL, 'c1', 'foot_length', 'left', 178, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (6, 'c1-m0right', 1, NULL, 'c1', 'foot_length', 'right', 179, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (7, 'c1-m1left', 1, NULL, 'c1', 'foot_length', 'left', 184, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into measurements values (8, 'c1-m1right', 1, NULL, 'c1', 'foot_length', 'right', 185, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into markers values (1, 'c0-k', 1, NULL, 'c0', '2026-01-12', 'bone-age', 7.5, NULL, false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into markers values (2, 'c1-k', 1, NULL, 'c1', '2026-01-12', 'bone-age', 7.5, NULL, false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into skin_checks values (1, 'c0-s', 1, NULL, 'c0', 'c0-d', '2026-01-12', 'fades', '{"id": "c0-s", "date": "2026-01-12", "note": "", "side": "left", "state": "fades", "where": "medial malleolus", "childId": "c0", "minutes": 10, "deviceId": "c0-d", "observer": "", "cannotWarn": false}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into skin_checks values (2, 'c1-s', 1, NULL, 'c1', 'c1-d', '2026-01-12', 'fades', '{"id": "c1-s", "date": "2026-01-12", "note": "", "side": "left", "state": "fades", "where": "medial malleolus", "childId": "c1", "minutes": 10, "deviceId": "c1-d", "observer": "", "cannotWarn": false}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
insert into workshop_jobs values ('c0-j', 'c0', 'c0-d', 'fitted', '{"id": "c0-j", "family": "solid-afo", "stages": {"fit": "2025-06-23", "cast": "2025-06-02"}, "status": "fitted", "deviceId": "c0-d"}', 1, '2026-11-27 09:04:18.531069+00');
insert into workshop_jobs values ('c1-j', 'c1', 'c1-d', 'fitted', '{"id": "c1-j", "family": "solid-afo", "stages": {"fit": "2025-06-23", "cast": "2025-06-02"}, "status": "fitted", "deviceId": "c1-d"}', 1, '2026-11-27 09:04:18.531069+00');
insert into users (id, name, display_name, role, password_hash, oidc_issuer, oidc_subject, disabled, version, created_at) values ('7d937dc5-5e98-4e76-93a7-5ca6ac503dfa', 'clinician', 'clinician', 'clinician', '$argon2id$v=19$m=19456,t=2,p=1$9rdQHg5e7Qo+vUgVjLQ4YA$IyAEGMnfIXo+/2zd9zUFsBWEkyZaZ6RDr4DesSosDf8', NULL, NULL, false, 1, '2026-11-27 09:04:18.912211+00');
insert into audit values (1, '2026-11-27 09:04:18.531069+00', 'system', 'system', 'system', 'import', 'caseload', NULL, '{"added": 20, "reason": "import", "changed": 0, "unchanged": 0}', NULL, '{c0,c1}');
insert into audit values (2, '2026-11-27 09:04:18.912211+00', 'system', 'system', 'system', 'create', 'user', NULL, '{"role": "clinician", "userId": "7d937dc5-5e98-4e76-93a7-5ca6ac503dfa"}', NULL, NULL);
select setval('audit_seq_seq', 2, true);
select setval('device_events_seq_seq', 2, true);
select setval('markers_seq_seq', 2, true);
select setval('measurements_seq_seq', 8, true);
select setval('skin_checks_seq_seq', 2, true);
