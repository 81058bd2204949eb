/** Rows as they lie in PostgreSQL. These types never leave the store. Dates come back as 'YYYY-MM-DD', bigints as text. */
import type { ColumnType, Generated } from 'kysely';
import type { DeviceForecast } from '../forecast/contract.js';
import type { RecallEntry, WorkState } from '../recall/contract.js';
import type { CaseloadPart } from '../records/caseload.js';
import type { Device, DeviceEvent, WorkshopJob } from '../records/device.js';
import type { ToeRoom } from '../records/family-answer.js';
import type { Child, MaturityMarker, Measurement } from '../records/records.js';
import type { SkinCheck } from '../records/skin-check.js';
import type { ClinicLimit } from '../rules/clinic-limits.js';
import type {
  AuditDetail,
  BriefEntry,
  ForecastSummary,
  JobRun,
  RecallListName,
  Role,
  StoredAssessment,
  StoredImport,
} from './shapes.js';

type Stamp = ColumnType<Date, Date | string | undefined, Date | string>;
type MaybeStamp = ColumnType<Date | null, Date | string | null | undefined, Date | string | null>;
/** Written as JSON text. */
type Json<T> = ColumnType<T, string, string>;
type Seq = Generated<string>;

interface Versioned {
  version: Generated<number>;
  updated_at: Stamp;
}
interface Revised {
  seq: Seq;
  id: string;
  revision: number;
  corrects_seq: string | null;
  child_id: string;
  date: string;
  withdrawn: boolean;
  reason: string;
  recorded_by: string;
  recorded_at: Stamp;
}

export interface Tables {
  children: Versioned & {
    id: string;
    name_key: string;
    birth_date: string;
    status: string;
    data: Json<Child>;
    created_at: Stamp;
  };
  tombstones: { child_id: string; erased_at: Stamp; erased_by: string; reason: string };
  measurements: Revised & {
    measure: Measurement['measure'];
    side: Measurement['side'];
    value: number;
    method: string;
    observer: string;
    technical_error: number | null;
    entered: string;
    extra: Json<Record<string, string>>;
  };
  current_measurements: Tables['measurements'];
  current_markers: Tables['markers'];
  current_device_events: Tables['device_events'];
  current_skin_checks: Tables['skin_checks'];
  markers: Revised & { kind: MaturityMarker['kind']; value: number; sd_years: number | null };
  devices: Versioned & {
    id: string;
    child_id: string;
    family: string;
    status: string;
    data: Json<Device>;
  };
  skin_checks: Revised & { device_id: string | null; state: SkinCheck['state']; data: Json<SkinCheck> };
  device_events: Revised & { device_id: string; data: Json<DeviceEvent> };
  workshop_jobs: Versioned & {
    id: string;
    child_id: string;
    device_id: string;
    status: string;
    data: Json<WorkshopJob>;
  };
  record_history: {
    seq: Seq;
    record: string;
    id: string;
    child_id: string;
    version: number;
    data: Json<unknown>;
    replaced_at: Stamp;
  };
  audit: {
    seq: Seq;
    at: Stamp;
    user_id: string;
    user_name: string;
    role: string;
    action: string;
    resource: string;
    child_id: string | null;
    detail: Json<AuditDetail>;
    request_id: string | null;
    child_ids: string[] | null;
  };
  assessments: {
    child_id: string;
    today: string;
    data: Json<Pick<StoredAssessment, 'forecasts' | 'flags' | 'suggestions' | 'lastDay' | 'program'>>;
    soonest: Json<ForecastSummary> | null;
    soonest_key: string | null;
    inputs_hash: string;
    model_name: string;
    model_version: string;
    seed: ColumnType<string, number, number>;
    computed_at: Stamp;
  };
  forecast_history: {
    seq: Seq;
    device_id: string;
    child_id: string;
    family: string;
    today: string;
    month: string;
    outcome: DeviceForecast['outcome'];
    p10: string | null;
    p50: string | null;
    p90: string | null;
    inputs_hash: string;
    model_version: string;
    seed: ColumnType<string, number, number>;
    made_on: string | null;
  };
  recall_runs: {
    id: string;
    seq: Seq;
    today: string;
    month: string;
    summary: Json<Record<string, unknown>>;
    inputs_hash: string;
    model_name: string;
    model_version: string;
    seed: ColumnType<string, number, number>;
    created_at: Stamp;
  };
  recall_entries: {
    id: string;
    run_id: string;
    position: number;
    list: RecallListName;
    child_id: string;
    action: string;
    overdue: boolean;
    data: Json<RecallEntry>;
    /** Made of the data by the database. */
    brief: ColumnType<BriefEntry, never, never>;
    state: Generated<WorkState>;
    appointment: string | null;
    version: Generated<number>;
  };
  recall_state_changes: {
    seq: Seq;
    entry_id: string;
    child_id: string;
    from_state: WorkState;
    to_state: WorkState;
    note: string;
    by_name: string;
    at: Stamp;
    undoes_seq: string | null;
    from_appointment: string | null;
  };
  users: {
    id: string;
    name: string;
    display_name: string;
    role: Role;
    password_hash: string | null;
    password_by_other: Generated<boolean>;
    oidc_issuer: string | null;
    oidc_subject: string | null;
    disabled: Generated<boolean>;
    version: Generated<number>;
    created_at: Stamp;
  };
  sessions: { id_hash: string; data: Json<Record<string, unknown>>; expires_at: Stamp };
  sign_in_tries: { account: string; tries: number; locked_until: Date | null; last_at: Date };
  access_tokens: { token_hash: string; user_id: string; expires_at: Stamp; created_at: Stamp };
  family_links: {
    id: string;
    child_id: string;
    label: string;
    expires_at: Stamp;
    withdrawn_at: MaybeStamp;
    created_by: string;
    created_at: Stamp;
    last_used_at: MaybeStamp;
  };
  family_questions: {
    id: string;
    child_id: string;
    device_id: string | null;
    asked_by: string;
    asked_at: Stamp;
    answered_at: MaybeStamp;
    link_id: string | null;
    toes: ToeRoom | null;
    marks: SkinCheck['state'] | null;
    place: Generated<string>;
    minutes: number | null;
    decided_at: MaybeStamp;
    decided_by: string | null;
    decision: 'accepted' | 'set-aside' | null;
  };
  settings: {
    name: string;
    value: Json<unknown>;
    version: Generated<number>;
    updated_by: string;
    updated_at: Stamp;
  };
  fit_limit_changes: {
    seq: Seq;
    version: number;
    family: string;
    measure: ClinicLimit['measure'];
    figure: ClinicLimit['figure'];
    mm: number | null;
    before_mm: number;
    reason: string;
    changed_by: string;
    changed_at: Stamp;
  };
  sign_offs: {
    seq: Seq;
    subject: string;
    content: string;
    signed_name: string;
    profession: string;
    signed_by: string;
    signed_at: Stamp;
  };
  record_changes: { seq: Seq; table_name: string; at: Stamp };
  secrets: { name: string; value: string };
  idempotency_keys: {
    user_id: string;
    key: string;
    request_hash: string;
    status: number | null;
    headers: Json<Record<string, string>> | null;
    body: string | null;
    created_at: Stamp;
  };
  imports: {
    id: string;
    status: StoredImport['status'];
    files: ColumnType<Buffer | null, Buffer | null | undefined, Buffer | null>;
    options: ColumnType<unknown, string | undefined, string>;
    added: ColumnType<unknown, string | null | undefined, string | null>;
    kept: Generated<boolean>;
    plan: Json<unknown>;
    created_by: string;
    created_at: Stamp;
    committed_at: MaybeStamp;
  };
  import_rows: { import_id: string; seq: number; part: CaseloadPart; record_id: string; data: Json<unknown> };
  sheet_answers: {
    sheet: string;
    question: string;
    asks: string;
    headings: string;
    answer: string;
    updated_by: string;
    updated_at: Date;
  };
  job_runs: {
    id: string;
    seq: Seq;
    kind: JobRun['kind'];
    status: JobRun['status'];
    done: Generated<number>;
    total: Generated<number>;
    message: Generated<string>;
    started_at: Stamp;
    finished_at: MaybeStamp;
  };
  job_run_parts: { run_id: string; part: number };
}
