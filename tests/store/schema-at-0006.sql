-- The tables as they stood after 0006-skin-checks, with two invented children, by pg_dump 15 without its comments, settings,
-- owners and grants: a clinic that has not been upgraded since. Never changed, whatever a migration says now.
SET check_function_bodies = false;
CREATE FUNCTION public.append_only() RETURNS trigger
    LANGUAGE plpgsql
    AS $$
begin
  if tg_op = 'DELETE' and tg_table_name not in ('audit', 'tombstones') and to_jsonb(old) ->> 'child_id' = current_setting('doorpost.erasing', true) then
    return old;
  end if;
  raise exception '% is append-only: % refused', tg_table_name, tg_op using errcode = 'restrict_violation';
end $$;
CREATE FUNCTION public.keep_what_it_was() RETURNS trigger
    LANGUAGE plpgsql
    AS $$
begin
  insert into record_history (record, id, child_id, version, data)
  values (tg_table_name, old.id, case when tg_table_name = 'children' then old.id else to_jsonb(old) ->> 'child_id' end,
          old.version, old.data);
  return new;
end $$;
CREATE TABLE public.access_tokens (
    token_hash text NOT NULL,
    user_id text NOT NULL,
    expires_at timestamp with time zone NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.assessments (
    child_id text NOT NULL,
    today date NOT NULL,
    data jsonb NOT NULL,
    soonest jsonb,
    soonest_key date,
    inputs_hash text NOT NULL,
    model_name text NOT NULL,
    model_version text NOT NULL,
    seed bigint NOT NULL,
    computed_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.audit (
    seq bigint NOT NULL,
    at timestamp with time zone DEFAULT now() NOT NULL,
    user_id text NOT NULL,
    user_name text NOT NULL,
    role text NOT NULL,
    action text NOT NULL,
    resource text NOT NULL,
    child_id text,
    detail jsonb NOT NULL,
    request_id text,
    child_ids text[]
);
CREATE SEQUENCE public.audit_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.audit_seq_seq OWNED BY public.audit.seq;
CREATE TABLE public.children (
    id text NOT NULL,
    name_key text NOT NULL,
    birth_date date NOT NULL,
    status text NOT NULL,
    data jsonb NOT NULL,
    version integer DEFAULT 1 NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    updated_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.device_events (
    seq bigint NOT NULL,
    id text NOT NULL,
    revision integer DEFAULT 1 NOT NULL,
    corrects_seq bigint,
    child_id text NOT NULL,
    device_id text NOT NULL,
    date date NOT NULL,
    data jsonb NOT NULL,
    withdrawn boolean DEFAULT false NOT NULL,
    reason text DEFAULT ''::text NOT NULL,
    recorded_by text NOT NULL,
    recorded_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE VIEW public.current_device_events AS
 SELECT e.seq,
    e.id,
    e.revision,
    e.corrects_seq,
    e.child_id,
    e.device_id,
    e.date,
    e.data,
    e.withdrawn,
    e.reason,
    e.recorded_by,
    e.recorded_at
   FROM public.device_events e
  WHERE ((NOT e.withdrawn) AND (NOT (EXISTS ( SELECT 1
           FROM public.device_events later
          WHERE (later.corrects_seq = e.seq)))));
CREATE TABLE public.markers (
    seq bigint NOT NULL,
    id text NOT NULL,
    revision integer DEFAULT 1 NOT NULL,
    corrects_seq bigint,
    child_id text NOT NULL,
    date date NOT NULL,
    kind text NOT NULL,
    value double precision NOT NULL,
    sd_years double precision,
    withdrawn boolean DEFAULT false NOT NULL,
    reason text DEFAULT ''::text NOT NULL,
    recorded_by text NOT NULL,
    recorded_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE VIEW public.current_markers AS
 SELECT m.seq,
    m.id,
    m.revision,
    m.corrects_seq,
    m.child_id,
    m.date,
    m.kind,
    m.value,
    m.sd_years,
    m.withdrawn,
    m.reason,
    m.recorded_by,
    m.recorded_at
   FROM public.markers m
  WHERE ((NOT m.withdrawn) AND (NOT (EXISTS ( SELECT 1
           FROM public.markers later
          WHERE (later.corrects_seq = m.seq)))));
CREATE TABLE public.measurements (
    seq bigint NOT NULL,
    id text NOT NULL,
    revision integer DEFAULT 1 NOT NULL,
    corrects_seq bigint,
    child_id text NOT NULL,
    measure text NOT NULL,
    side text NOT NULL,
    value double precision NOT NULL,
    date date NOT NULL,
    method text NOT NULL,
    observer text NOT NULL,
    technical_error double precision,
    entered text NOT NULL,
    extra jsonb NOT NULL,
    withdrawn boolean DEFAULT false NOT NULL,
    reason text DEFAULT ''::text NOT NULL,
    recorded_by text NOT NULL,
    recorded_at timestamp with time zone DEFAULT now() NOT NULL,
    CONSTRAINT measurements_check CHECK (((revision = 1) = (corrects_seq IS NULL))),
    CONSTRAINT measurements_value_check CHECK ((value > (0)::double precision))
);
CREATE VIEW public.current_measurements AS
 SELECT m.seq,
    m.id,
    m.revision,
    m.corrects_seq,
    m.child_id,
    m.measure,
    m.side,
    m.value,
    m.date,
    m.method,
    m.observer,
    m.technical_error,
    m.entered,
    m.extra,
    m.withdrawn,
    m.reason,
    m.recorded_by,
    m.recorded_at
   FROM public.measurements m
  WHERE ((NOT m.withdrawn) AND (NOT (EXISTS ( SELECT 1
           FROM public.measurements later
          WHERE (later.corrects_seq = m.seq)))));
CREATE TABLE public.skin_checks (
    seq bigint NOT NULL,
    id text NOT NULL,
    revision integer DEFAULT 1 NOT NULL,
    corrects_seq bigint,
    child_id text NOT NULL,
    device_id text,
    date date NOT NULL,
    state text NOT NULL,
    data jsonb NOT NULL,
    withdrawn boolean DEFAULT false NOT NULL,
    reason text DEFAULT ''::text NOT NULL,
    recorded_by text NOT NULL,
    recorded_at timestamp with time zone DEFAULT now() NOT NULL,
    CONSTRAINT skin_checks_check CHECK (((revision = 1) = (corrects_seq IS NULL)))
);
CREATE VIEW public.current_skin_checks AS
 SELECT s.seq,
    s.id,
    s.revision,
    s.corrects_seq,
    s.child_id,
    s.device_id,
    s.date,
    s.state,
    s.data,
    s.withdrawn,
    s.reason,
    s.recorded_by,
    s.recorded_at
   FROM public.skin_checks s
  WHERE ((NOT s.withdrawn) AND (NOT (EXISTS ( SELECT 1
           FROM public.skin_checks later
          WHERE (later.corrects_seq = s.seq)))));
CREATE SEQUENCE public.device_events_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.device_events_seq_seq OWNED BY public.device_events.seq;
CREATE TABLE public.devices (
    id text NOT NULL,
    child_id text NOT NULL,
    family text NOT NULL,
    status text NOT NULL,
    data jsonb NOT NULL,
    version integer DEFAULT 1 NOT NULL,
    updated_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.family_links (
    id text NOT NULL,
    child_id text NOT NULL,
    label text NOT NULL,
    expires_at timestamp with time zone NOT NULL,
    withdrawn_at timestamp with time zone,
    created_by text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    last_used_at timestamp with time zone
);
CREATE TABLE public.fit_limit_changes (
    seq bigint NOT NULL,
    version integer NOT NULL,
    family text NOT NULL,
    measure text NOT NULL,
    figure text NOT NULL,
    mm double precision,
    before_mm double precision NOT NULL,
    reason text NOT NULL,
    changed_by text NOT NULL,
    changed_at timestamp with time zone DEFAULT now() NOT NULL,
    CONSTRAINT fit_limit_changes_mm_check CHECK ((mm >= (0)::double precision))
);
CREATE SEQUENCE public.fit_limit_changes_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.fit_limit_changes_seq_seq OWNED BY public.fit_limit_changes.seq;
CREATE TABLE public.forecast_history (
    seq bigint NOT NULL,
    device_id text NOT NULL,
    child_id text NOT NULL,
    family text NOT NULL,
    today date NOT NULL,
    month date NOT NULL,
    outcome text NOT NULL,
    p10 date,
    p50 date,
    p90 date,
    inputs_hash text NOT NULL,
    model_version text NOT NULL,
    seed bigint NOT NULL
);
CREATE SEQUENCE public.forecast_history_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.forecast_history_seq_seq OWNED BY public.forecast_history.seq;
CREATE TABLE public.idempotency_keys (
    user_id text NOT NULL,
    key text NOT NULL,
    request_hash text NOT NULL,
    status integer,
    headers jsonb,
    body text,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.imports (
    id text NOT NULL,
    status text NOT NULL,
    caseload jsonb,
    plan jsonb NOT NULL,
    created_by text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    committed_at timestamp with time zone
);
CREATE TABLE public.job_run_parts (
    run_id text NOT NULL,
    part integer NOT NULL
);
CREATE TABLE public.job_runs (
    id text NOT NULL,
    seq bigint NOT NULL,
    kind text NOT NULL,
    status text NOT NULL,
    done integer DEFAULT 0 NOT NULL,
    total integer DEFAULT 0 NOT NULL,
    message text DEFAULT ''::text NOT NULL,
    started_at timestamp with time zone DEFAULT now() NOT NULL,
    finished_at timestamp with time zone
);
CREATE SEQUENCE public.job_runs_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.job_runs_seq_seq OWNED BY public.job_runs.seq;
CREATE TABLE public.kysely_migration (
    name character varying(255) NOT NULL,
    "timestamp" character varying(255) NOT NULL
);
CREATE TABLE public.kysely_migration_lock (
    id character varying(255) NOT NULL,
    is_locked integer DEFAULT 0 NOT NULL
);
CREATE SEQUENCE public.markers_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.markers_seq_seq OWNED BY public.markers.seq;
CREATE SEQUENCE public.measurements_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.measurements_seq_seq OWNED BY public.measurements.seq;
CREATE TABLE public.recall_entries (
    id text NOT NULL,
    run_id text NOT NULL,
    "position" integer NOT NULL,
    list text NOT NULL,
    child_id text NOT NULL,
    action text NOT NULL,
    overdue boolean NOT NULL,
    data jsonb NOT NULL,
    state text DEFAULT 'to-call'::text NOT NULL,
    version integer DEFAULT 1 NOT NULL,
    appointment date
);
CREATE TABLE public.recall_runs (
    id text NOT NULL,
    seq bigint NOT NULL,
    today date NOT NULL,
    month date NOT NULL,
    summary jsonb DEFAULT '{}'::jsonb NOT NULL,
    inputs_hash text DEFAULT ''::text NOT NULL,
    model_name text DEFAULT ''::text NOT NULL,
    model_version text DEFAULT ''::text NOT NULL,
    seed bigint DEFAULT 0 NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE SEQUENCE public.recall_runs_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.recall_runs_seq_seq OWNED BY public.recall_runs.seq;
CREATE TABLE public.recall_state_changes (
    seq bigint NOT NULL,
    entry_id text NOT NULL,
    child_id text NOT NULL,
    from_state text NOT NULL,
    to_state text NOT NULL,
    note text NOT NULL,
    by_name text NOT NULL,
    at timestamp with time zone DEFAULT now() NOT NULL,
    undoes_seq bigint,
    from_appointment date
);
CREATE SEQUENCE public.recall_state_changes_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.recall_state_changes_seq_seq OWNED BY public.recall_state_changes.seq;
CREATE TABLE public.record_history (
    seq bigint NOT NULL,
    record text NOT NULL,
    id text NOT NULL,
    child_id text NOT NULL,
    version integer NOT NULL,
    data jsonb NOT NULL,
    replaced_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE SEQUENCE public.record_history_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.record_history_seq_seq OWNED BY public.record_history.seq;
CREATE TABLE public.secrets (
    name text NOT NULL,
    value text NOT NULL
);
CREATE TABLE public.sessions (
    id_hash text NOT NULL,
    data jsonb NOT NULL,
    expires_at timestamp with time zone NOT NULL
);
CREATE TABLE public.settings (
    name text NOT NULL,
    value jsonb NOT NULL,
    version integer DEFAULT 1 NOT NULL,
    updated_by text NOT NULL,
    updated_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.sign_in_tries (
    account text NOT NULL,
    tries integer NOT NULL,
    locked_until timestamp with time zone,
    last_at timestamp with time zone NOT NULL
);
CREATE SEQUENCE public.skin_checks_seq_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1;
ALTER SEQUENCE public.skin_checks_seq_seq OWNED BY public.skin_checks.seq;
CREATE TABLE public.tombstones (
    child_id text NOT NULL,
    erased_at timestamp with time zone DEFAULT now() NOT NULL,
    erased_by text NOT NULL,
    reason text NOT NULL
);
CREATE TABLE public.users (
    id text NOT NULL,
    name text NOT NULL,
    display_name text NOT NULL,
    role text NOT NULL,
    password_hash text,
    oidc_issuer text,
    oidc_subject text,
    disabled boolean DEFAULT false NOT NULL,
    version integer DEFAULT 1 NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL
);
CREATE TABLE public.workshop_jobs (
    id text NOT NULL,
    child_id text NOT NULL,
    device_id text NOT NULL,
    status text NOT NULL,
    data jsonb NOT NULL,
    version integer DEFAULT 1 NOT NULL,
    updated_at timestamp with time zone DEFAULT now() NOT NULL
);
ALTER TABLE ONLY public.audit ALTER COLUMN seq SET DEFAULT nextval('public.audit_seq_seq'::regclass);
ALTER TABLE ONLY public.device_events ALTER COLUMN seq SET DEFAULT nextval('public.device_events_seq_seq'::regclass);
ALTER TABLE ONLY public.fit_limit_changes ALTER COLUMN seq SET DEFAULT nextval('public.fit_limit_changes_seq_seq'::regclass);
ALTER TABLE ONLY public.forecast_history ALTER COLUMN seq SET DEFAULT nextval('public.forecast_history_seq_seq'::regclass);
ALTER TABLE ONLY public.job_runs ALTER COLUMN seq SET DEFAULT nextval('public.job_runs_seq_seq'::regclass);
ALTER TABLE ONLY public.markers ALTER COLUMN seq SET DEFAULT nextval('public.markers_seq_seq'::regclass);
ALTER TABLE ONLY public.measurements ALTER COLUMN seq SET DEFAULT nextval('public.measurements_seq_seq'::regclass);
ALTER TABLE ONLY public.recall_runs ALTER COLUMN seq SET DEFAULT nextval('public.recall_runs_seq_seq'::regclass);
ALTER TABLE ONLY public.recall_state_changes ALTER COLUMN seq SET DEFAULT nextval('public.recall_state_changes_seq_seq'::regclass);
ALTER TABLE ONLY public.record_history ALTER COLUMN seq SET DEFAULT nextval('public.record_history_seq_seq'::regclass);
ALTER TABLE ONLY public.skin_checks ALTER COLUMN seq SET DEFAULT nextval('public.skin_checks_seq_seq'::regclass);
INSERT INTO public.audit VALUES (1, '2026-11-27 09:04:18.531069+00', 'system', 'system', 'system', 'import', 'caseload', NULL, '{"added": 20, "reason": "import", "changed": 0, "unchanged": 0}', NULL, '{c0,c1}');
INSERT INTO public.audit VALUES (2, '2026-11-27 09:04:18.912211+00', 'system', 'system', 'system', 'create', 'user', NULL, '{"role": "clinician", "userId": "7d937dc5-5e98-4e76-93a7-5ca6ac503dfa"}', NULL, NULL);
INSERT INTO public.children VALUES ('c0', 'invented child c0', '2018-03-01', 'active', '{"id": "c0", "sex": "male", "name": "Invented Child c0", "extra": {}, "walks": true, "status": "active", "contact": "call c0", "language": "en", "birthDate": "2018-03-01", "clinician": "", "conditions": ["cerebral-palsy"], "latexAlert": false, "palliative": false, "affectedSide": "none", "siblingGroup": null, "insensateSkin": false, "transportDays": [], "gestationWeeks": null, "prefersHolidays": false}', 1, '2026-11-27 09:04:18.531069+00', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.children VALUES ('c1', 'invented child c1', '2018-03-01', 'active', '{"id": "c1", "sex": "female", "name": "Invented Child c1", "extra": {}, "walks": true, "status": "active", "contact": "call c1", "language": "en", "birthDate": "2018-03-01", "clinician": "", "conditions": ["cerebral-palsy"], "latexAlert": false, "palliative": false, "affectedSide": "none", "siblingGroup": null, "insensateSkin": false, "transportDays": [], "gestationWeeks": null, "prefersHolidays": false}', 1, '2026-11-27 09:04:18.531069+00', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.device_events VALUES (1, 'c0-e', 1, NULL, 'c0', 'c0-d', '2025-06-23', '{"id": "c0-e", "date": "2025-06-23", "kind": "delivered", "note": "", "side": null, "measure": null, "verdict": null, "changeMm": null, "deviceId": "c0-d", "endReason": null, "adjustment": null}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.device_events VALUES (2, 'c1-e', 1, NULL, 'c1', 'c1-d', '2025-06-23', '{"id": "c1-e", "date": "2025-06-23", "kind": "delivered", "note": "", "side": null, "measure": null, "verdict": null, "changeMm": null, "deviceId": "c1-d", "endReason": null, "adjustment": null}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.devices VALUES ('c0-d', 'c0', 'solid-afo', 'worn', '{"id": "c0-d", "side": "left", "extra": {}, "family": "solid-afo", "status": "worn", "childId": "c0", "castDate": "2025-06-02", "limitsMm": {}, "replaces": null, "footplate": "full", "fittedDate": "2025-06-23", "allowancesMm": {}, "extensionRangeMm": {}}', 1, '2026-11-27 09:04:18.531069+00');
INSERT INTO public.devices VALUES ('c1-d', 'c1', 'solid-afo', 'worn', '{"id": "c1-d", "side": "left", "extra": {}, "family": "solid-afo", "status": "worn", "childId": "c1", "castDate": "2025-06-02", "limitsMm": {}, "replaces": null, "footplate": "full", "fittedDate": "2025-06-23", "allowancesMm": {}, "extensionRangeMm": {}}', 1, '2026-11-27 09:04:18.531069+00');
INSERT INTO public.kysely_migration VALUES ('0001-ground-state', '2026-11-27T09:03:46.891Z');
INSERT INTO public.kysely_migration VALUES ('0002-derived-and-work', '2026-11-27T09:03:47.300Z');
INSERT INTO public.kysely_migration VALUES ('0003-appointments', '2026-11-27T09:03:47.307Z');
INSERT INTO public.kysely_migration VALUES ('0004-clinic-fit-rules', '2026-11-27T09:03:47.348Z');
INSERT INTO public.kysely_migration VALUES ('0005-doors', '2026-11-27T09:03:47.388Z');
INSERT INTO public.kysely_migration VALUES ('0006-skin-checks', '2026-11-27T09:03:47.451Z');
INSERT INTO public.kysely_migration_lock VALUES ('migration_lock', 0);
INSERT INTO public.markers VALUES (1, 'c0-k', 1, NULL, 'c0', '2026-01-12', 'bone-age', 7.5, NULL, false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.markers VALUES (2, 'c1-k', 1, NULL, 'c1', '2026-01-12', 'bone-age', 7.5, NULL, false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (1, 'c0-m0left', 1, NULL, 'c0', 'foot_length', 'left', 178, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (2, 'c0-m0right', 1, NULL, 'c0', 'foot_length', 'right', 179, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (3, 'c0-m1left', 1, NULL, 'c0', 'foot_length', 'left', 184, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (4, 'c0-m1right', 1, NULL, 'c0', 'foot_length', 'right', 185, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (5, 'c1-m0left', 1, NULL, 'c1', 'foot_length', 'left', 178, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (6, 'c1-m0right', 1, NULL, 'c1', 'foot_length', 'right', 179, '2025-06-02', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (7, 'c1-m1left', 1, NULL, 'c1', 'foot_length', 'left', 184, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.measurements VALUES (8, 'c1-m1right', 1, NULL, 'c1', 'foot_length', 'right', 185, '2026-01-12', '', '', NULL, '17,8 cm', '{"room": "blue"}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.skin_checks VALUES (1, 'c0-s', 1, NULL, 'c0', 'c0-d', '2026-01-12', 'fades', '{"id": "c0-s", "date": "2026-01-12", "note": "", "side": "left", "state": "fades", "where": "medial malleolus", "childId": "c0", "minutes": 10, "deviceId": "c0-d", "observer": "", "cannotWarn": false}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.skin_checks VALUES (2, 'c1-s', 1, NULL, 'c1', 'c1-d', '2026-01-12', 'fades', '{"id": "c1-s", "date": "2026-01-12", "note": "", "side": "left", "state": "fades", "where": "medial malleolus", "childId": "c1", "minutes": 10, "deviceId": "c1-d", "observer": "", "cannotWarn": false}', false, '', 'system', '2026-11-27 09:04:18.531069+00');
INSERT INTO public.users VALUES ('7d937dc5-5e98-4e76-93a7-5ca6ac503dfa', 'clinician', 'clinician', 'clinician', '$argon2id$v=19$m=19456,t=2,p=1$9rdQHg5e7Qo+vUgVjLQ4YA$IyAEGMnfIXo+/2zd9zUFsBWEkyZaZ6RDr4DesSosDf8', NULL, NULL, false, 1, '2026-11-27 09:04:18.912211+00');
INSERT INTO public.workshop_jobs VALUES ('c0-j', 'c0', 'c0-d', 'fitted', '{"id": "c0-j", "family": "solid-afo", "stages": {"fit": "2025-06-23", "cast": "2025-06-02"}, "status": "fitted", "deviceId": "c0-d"}', 1, '2026-11-27 09:04:18.531069+00');
INSERT INTO public.workshop_jobs VALUES ('c1-j', 'c1', 'c1-d', 'fitted', '{"id": "c1-j", "family": "solid-afo", "stages": {"fit": "2025-06-23", "cast": "2025-06-02"}, "status": "fitted", "deviceId": "c1-d"}', 1, '2026-11-27 09:04:18.531069+00');
SELECT pg_catalog.setval('public.audit_seq_seq', 2, true);
SELECT pg_catalog.setval('public.device_events_seq_seq', 2, true);
SELECT pg_catalog.setval('public.fit_limit_changes_seq_seq', 1, false);
SELECT pg_catalog.setval('public.forecast_history_seq_seq', 1, false);
SELECT pg_catalog.setval('public.job_runs_seq_seq', 1, false);
SELECT pg_catalog.setval('public.markers_seq_seq', 2, true);
SELECT pg_catalog.setval('public.measurements_seq_seq', 8, true);
SELECT pg_catalog.setval('public.recall_runs_seq_seq', 1, false);
SELECT pg_catalog.setval('public.recall_state_changes_seq_seq', 1, false);
SELECT pg_catalog.setval('public.record_history_seq_seq', 1, false);
SELECT pg_catalog.setval('public.skin_checks_seq_seq', 2, true);
ALTER TABLE ONLY public.access_tokens
    ADD CONSTRAINT access_tokens_pkey PRIMARY KEY (token_hash);
ALTER TABLE ONLY public.assessments
    ADD CONSTRAINT assessments_pkey PRIMARY KEY (child_id);
ALTER TABLE ONLY public.audit
    ADD CONSTRAINT audit_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.children
    ADD CONSTRAINT children_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.device_events
    ADD CONSTRAINT device_events_corrects_seq_key UNIQUE (corrects_seq);
ALTER TABLE ONLY public.device_events
    ADD CONSTRAINT device_events_id_revision_key UNIQUE (id, revision);
ALTER TABLE ONLY public.device_events
    ADD CONSTRAINT device_events_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.devices
    ADD CONSTRAINT devices_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.family_links
    ADD CONSTRAINT family_links_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.fit_limit_changes
    ADD CONSTRAINT fit_limit_changes_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.fit_limit_changes
    ADD CONSTRAINT fit_limit_changes_version_family_measure_figure_key UNIQUE (version, family, measure, figure);
ALTER TABLE ONLY public.forecast_history
    ADD CONSTRAINT forecast_history_device_id_month_inputs_hash_model_version_key UNIQUE (device_id, month, inputs_hash, model_version);
ALTER TABLE ONLY public.forecast_history
    ADD CONSTRAINT forecast_history_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.idempotency_keys
    ADD CONSTRAINT idempotency_keys_pkey PRIMARY KEY (user_id, key);
ALTER TABLE ONLY public.imports
    ADD CONSTRAINT imports_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.job_run_parts
    ADD CONSTRAINT job_run_parts_pkey PRIMARY KEY (run_id, part);
ALTER TABLE ONLY public.job_runs
    ADD CONSTRAINT job_runs_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.job_runs
    ADD CONSTRAINT job_runs_seq_key UNIQUE (seq);
ALTER TABLE ONLY public.kysely_migration_lock
    ADD CONSTRAINT kysely_migration_lock_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.kysely_migration
    ADD CONSTRAINT kysely_migration_pkey PRIMARY KEY (name);
ALTER TABLE ONLY public.markers
    ADD CONSTRAINT markers_corrects_seq_key UNIQUE (corrects_seq);
ALTER TABLE ONLY public.markers
    ADD CONSTRAINT markers_id_revision_key UNIQUE (id, revision);
ALTER TABLE ONLY public.markers
    ADD CONSTRAINT markers_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.measurements
    ADD CONSTRAINT measurements_corrects_seq_key UNIQUE (corrects_seq);
ALTER TABLE ONLY public.measurements
    ADD CONSTRAINT measurements_id_revision_key UNIQUE (id, revision);
ALTER TABLE ONLY public.measurements
    ADD CONSTRAINT measurements_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.recall_entries
    ADD CONSTRAINT recall_entries_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.recall_entries
    ADD CONSTRAINT recall_entries_run_id_position_key UNIQUE (run_id, "position");
ALTER TABLE ONLY public.recall_runs
    ADD CONSTRAINT recall_runs_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.recall_runs
    ADD CONSTRAINT recall_runs_seq_key UNIQUE (seq);
ALTER TABLE ONLY public.recall_state_changes
    ADD CONSTRAINT recall_state_changes_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.recall_state_changes
    ADD CONSTRAINT recall_state_changes_undoes_seq_key UNIQUE (undoes_seq);
ALTER TABLE ONLY public.record_history
    ADD CONSTRAINT record_history_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.secrets
    ADD CONSTRAINT secrets_pkey PRIMARY KEY (name);
ALTER TABLE ONLY public.sessions
    ADD CONSTRAINT sessions_pkey PRIMARY KEY (id_hash);
ALTER TABLE ONLY public.settings
    ADD CONSTRAINT settings_pkey PRIMARY KEY (name);
ALTER TABLE ONLY public.sign_in_tries
    ADD CONSTRAINT sign_in_tries_pkey PRIMARY KEY (account);
ALTER TABLE ONLY public.skin_checks
    ADD CONSTRAINT skin_checks_corrects_seq_key UNIQUE (corrects_seq);
ALTER TABLE ONLY public.skin_checks
    ADD CONSTRAINT skin_checks_id_revision_key UNIQUE (id, revision);
ALTER TABLE ONLY public.skin_checks
    ADD CONSTRAINT skin_checks_pkey PRIMARY KEY (seq);
ALTER TABLE ONLY public.tombstones
    ADD CONSTRAINT tombstones_pkey PRIMARY KEY (child_id);
ALTER TABLE ONLY public.users
    ADD CONSTRAINT users_name_key UNIQUE (name);
ALTER TABLE ONLY public.users
    ADD CONSTRAINT users_oidc_issuer_oidc_subject_key UNIQUE (oidc_issuer, oidc_subject);
ALTER TABLE ONLY public.users
    ADD CONSTRAINT users_pkey PRIMARY KEY (id);
ALTER TABLE ONLY public.workshop_jobs
    ADD CONSTRAINT workshop_jobs_pkey PRIMARY KEY (id);
CREATE INDEX assessments_by_soonest ON public.assessments USING btree (soonest_key, child_id);
CREATE INDEX audit_by_child ON public.audit USING btree (child_id, seq);
CREATE INDEX audit_by_children ON public.audit USING gin (child_ids);
CREATE INDEX audit_by_user ON public.audit USING btree (user_id, seq);
CREATE INDEX children_by_name ON public.children USING btree (name_key, id);
CREATE INDEX children_by_sibling_group ON public.children USING btree (((data ->> 'siblingGroup'::text)));
CREATE INDEX device_events_by_child ON public.device_events USING btree (child_id);
CREATE INDEX devices_by_child ON public.devices USING btree (child_id);
CREATE INDEX family_links_by_child ON public.family_links USING btree (child_id);
CREATE INDEX fit_limit_changes_by_figure ON public.fit_limit_changes USING btree (family, measure, figure, seq);
CREATE INDEX forecast_history_by_child ON public.forecast_history USING btree (child_id);
CREATE INDEX markers_by_child ON public.markers USING btree (child_id);
CREATE INDEX measurements_by_child ON public.measurements USING btree (child_id, date);
CREATE INDEX recall_entries_by_child ON public.recall_entries USING btree (child_id);
CREATE INDEX recall_state_changes_by_entry ON public.recall_state_changes USING btree (entry_id, seq);
CREATE INDEX record_history_by_child ON public.record_history USING btree (child_id);
CREATE INDEX skin_checks_by_child ON public.skin_checks USING btree (child_id, date);
CREATE INDEX workshop_jobs_by_child ON public.workshop_jobs USING btree (child_id);
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.audit FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.device_events FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.fit_limit_changes FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.markers FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.measurements FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.recall_state_changes FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.record_history FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.skin_checks FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE ON public.tombstones FOR EACH ROW EXECUTE FUNCTION public.append_only();
CREATE TRIGGER keep_children BEFORE UPDATE ON public.children FOR EACH ROW EXECUTE FUNCTION public.keep_what_it_was();
CREATE TRIGGER keep_devices BEFORE UPDATE ON public.devices FOR EACH ROW EXECUTE FUNCTION public.keep_what_it_was();
CREATE TRIGGER keep_workshop_jobs BEFORE UPDATE ON public.workshop_jobs FOR EACH ROW EXECUTE FUNCTION public.keep_what_it_was();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.audit FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.device_events FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.fit_limit_changes FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.markers FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.measurements FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.recall_state_changes FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.record_history FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.skin_checks FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON public.tombstones FOR EACH STATEMENT EXECUTE FUNCTION public.append_only();
ALTER TABLE ONLY public.access_tokens
    ADD CONSTRAINT access_tokens_user_id_fkey FOREIGN KEY (user_id) REFERENCES public.users(id);
ALTER TABLE ONLY public.assessments
    ADD CONSTRAINT assessments_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.device_events
    ADD CONSTRAINT device_events_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.device_events
    ADD CONSTRAINT device_events_corrects_seq_fkey FOREIGN KEY (corrects_seq) REFERENCES public.device_events(seq);
ALTER TABLE ONLY public.device_events
    ADD CONSTRAINT device_events_device_id_fkey FOREIGN KEY (device_id) REFERENCES public.devices(id);
ALTER TABLE ONLY public.devices
    ADD CONSTRAINT devices_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.family_links
    ADD CONSTRAINT family_links_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.forecast_history
    ADD CONSTRAINT forecast_history_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.job_run_parts
    ADD CONSTRAINT job_run_parts_run_id_fkey FOREIGN KEY (run_id) REFERENCES public.job_runs(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.markers
    ADD CONSTRAINT markers_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.markers
    ADD CONSTRAINT markers_corrects_seq_fkey FOREIGN KEY (corrects_seq) REFERENCES public.markers(seq);
ALTER TABLE ONLY public.measurements
    ADD CONSTRAINT measurements_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.measurements
    ADD CONSTRAINT measurements_corrects_seq_fkey FOREIGN KEY (corrects_seq) REFERENCES public.measurements(seq);
ALTER TABLE ONLY public.recall_entries
    ADD CONSTRAINT recall_entries_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.recall_entries
    ADD CONSTRAINT recall_entries_run_id_fkey FOREIGN KEY (run_id) REFERENCES public.recall_runs(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.recall_state_changes
    ADD CONSTRAINT recall_state_changes_entry_id_fkey FOREIGN KEY (entry_id) REFERENCES public.recall_entries(id) ON DELETE CASCADE;
ALTER TABLE ONLY public.recall_state_changes
    ADD CONSTRAINT recall_state_changes_undoes_seq_fkey FOREIGN KEY (undoes_seq) REFERENCES public.recall_state_changes(seq);
ALTER TABLE ONLY public.skin_checks
    ADD CONSTRAINT skin_checks_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.skin_checks
    ADD CONSTRAINT skin_checks_corrects_seq_fkey FOREIGN KEY (corrects_seq) REFERENCES public.skin_checks(seq);
ALTER TABLE ONLY public.skin_checks
    ADD CONSTRAINT skin_checks_device_id_fkey FOREIGN KEY (device_id) REFERENCES public.devices(id);
ALTER TABLE ONLY public.workshop_jobs
    ADD CONSTRAINT workshop_jobs_child_id_fkey FOREIGN KEY (child_id) REFERENCES public.children(id);
ALTER TABLE ONLY public.workshop_jobs
    ADD CONSTRAINT workshop_jobs_device_id_fkey FOREIGN KEY (device_id) REFERENCES public.devices(id);
