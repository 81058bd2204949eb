/**
 * What the store promises to service, pages and commands. Ground rows are what people entered; measurements,
 * markers and device events are append-only (a correction is a new revision, the original stays). Every method that
 * touches a child's data takes the `actor` and writes its own audit row in the same transaction, so nobody can forget.
 * Ids are stable text; `version` is for lost-update checks (HTTP ETag) and starts at 1.
 */
import type { DataSuggestion, DeviceForecast, Flag } from '../forecast/contract.js';
import type { KeptForecast } from '../forecast/device/held-against-verdicts.js';
import type { EarlierVisit } from '../recall/carry-over.js';
import type { RecallEntry, WorkState } from '../recall/contract.js';
import type { Caseload, ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent, WorkshopJob } from '../records/device.js';
import type { FamilyAnswer } from '../records/family-answer.js';
import type { MeasureId, Side } from '../records/measure.js';
import type { Child, MaturityMarker, Measurement } from '../records/records.js';
import type { SkinCheck } from '../records/skin-check.js';
import type { ClinicLimit, LimitChange, LimitPlace } from '../rules/clinic-limits.js';
import type { DeviceGroup } from '../rules/limit-reach.js';
import type { PopulationOffsets } from './work/population-offsets.js';
import type { JobData, JobName, WorkQueue } from './work/queue.js';

export const roles = ['clinician', 'scheduler', 'administrator', 'auditor'] as const;
export type Role = (typeof roles)[number];

/** Who acts. 'family' acts through a signed link; 'system' is a job or a command line. */
export interface Actor {
  readonly userId: string;
  /** The sign-in name; for a family 'family-link', for a job 'system'. Never a child's name. */
  readonly name: string;
  readonly role: Role | 'family' | 'system';
  readonly requestId?: string;
}
export const systemActor: Actor = { userId: 'system', name: 'system', role: 'system' };

export interface PageRequest {
  /** 1..500, default 50. */
  readonly limit?: number;
  /** `nextCursor` of the page before; null or absent for the first page. */
  readonly cursor?: string | null;
}
export interface Page<T> {
  readonly items: readonly T[];
  readonly nextCursor: string | null;
}

/** A row to find a child by; carries the soonest outgrown date of the devices in use as last computed. */
export interface ChildSummary {
  readonly id: string;
  readonly name: string;
  readonly birthDate: IsoDate;
  readonly sex: Child['sex'];
  readonly status: Child['status'];
  readonly insensateSkin: boolean;
  readonly latexAlert: boolean;
  readonly lastVisit: IsoDate | null;
  readonly devicesInUse: number;
  /** The forecast of the device in use that is outgrown first (already outgrown counts as first), or null. */
  readonly soonest: ForecastSummary | null;
  readonly version: number;
}
export interface ForecastSummary {
  readonly deviceId: string;
  readonly family: string;
  readonly side: Device['side'];
  readonly outcome: DeviceForecast['outcome'];
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
  readonly today: IsoDate;
}

export interface ChildSearch {
  /** Words of a name in any order, initials, the beginning of an id, a birth date; empty for all. */
  readonly text?: string;
  /** Also names that differ from what was typed by one slip of the keyboard. */
  readonly slip?: boolean;
  readonly status?: Child['status'] | 'any'; // default 'active'
  /** 'name' (default) or 'soonest': outgrown first on top, children without a forecast last. */
  readonly sort?: 'name' | 'soonest';
  /** Only children wearing a device of this family. */
  readonly family?: string;
}

/** One date's readings. There is no visit row: a visit is the measurements of one child on one date. */
export interface NewVisit {
  readonly date: IsoDate;
  readonly observer?: string;
  readonly method?: string;
  readonly measurements: readonly NewReading[];
}
export interface NewReading {
  readonly measure: MeasureId;
  readonly side: Side;
  /** mm (kg for weight). */
  readonly value: number;
  readonly method?: string;
  readonly technicalError?: number | null;
  /** What was typed, with its unit: '17,5 cm'. */
  readonly entered?: string;
}
export interface Visit {
  readonly date: IsoDate;
  readonly measurements: readonly Measurement[];
}

/** A new revision of a reading; give only what changes. `withdrawn: true` takes the reading out (entered in error). */
export interface Correction {
  readonly value?: number;
  readonly side?: Side;
  readonly measure?: MeasureId;
  readonly date?: IsoDate;
  readonly withdrawn?: boolean;
  readonly reason: string;
}
/** Revision 1 is the original as entered; the highest revision counts. */
export interface MeasurementRevision {
  readonly measurement: Measurement;
  readonly revision: number;
  readonly withdrawn: boolean;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

/** A state of a device's record: who left it so and when; `by` null where an event did, `at` null for the first. */
export interface DeviceVersion {
  readonly version: number;
  readonly device: Device;
  readonly by: string | null;
  readonly at: string | null;
}
/** Revision 1 is the entry as recorded; the highest revision counts. */
export interface EventRevision {
  readonly event: DeviceEvent;
  readonly revision: number;
  readonly withdrawn: boolean;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}
export type EventCorrection = Partial<
  Pick<DeviceEvent, 'date' | 'measure' | 'side' | 'changeMm' | 'adjustment' | 'verdict' | 'note'>
> & { readonly reason: string };

/** What is derived for one child, with what it was derived from. Thrown away and computed again at will. */
export interface StoredAssessment {
  readonly childId: string;
  readonly today: IsoDate;
  readonly forecasts: readonly DeviceForecast[];
  readonly flags: readonly Flag[];
  readonly suggestions: readonly DataSuggestion[];
  /** SHA-256 of the child's ground rows and the fit rules of its devices' families. */
  readonly inputsHash: string;
  readonly modelName: string;
  readonly modelVersion: string;
  readonly seed: number;
  readonly computedAt: string;
}

export interface RecallRun {
  readonly id: string;
  readonly today: IsoDate;
  /** First of the month the list is for. */
  readonly month: IsoDate;
  /** Entries of the lists 'due' and 'cannot-forecast'. */
  readonly entries: number;
  readonly overdue: number;
  readonly modelVersion: string;
  readonly seed: number;
  readonly createdAt: string;
  /** Whatever the recall room says about the whole list (capacity per week, overloads, children not on the list and why). */
  readonly summary: Readonly<Record<string, unknown>>;
}
export interface RecallRow {
  readonly id: string;
  readonly runId: string;
  readonly childId: string;
  readonly childName: string;
  readonly contact: string;
  /** Who sees this child, as its record names them; empty for anybody. */
  readonly clinician: string;
  readonly language: string;
  readonly transportDays: readonly number[];
  readonly latexAlert: boolean;
  /** Which of the recall room's lists it stands in; everybody who must be rung is in the first two. */
  readonly list: RecallListName;
  /** As the recall room made it, planned week and its reason included where the list was levelled. */
  readonly entry: RecallEntry;
  readonly state: WorkState;
  /** The day it is booked for, where one was said. */
  readonly appointment: IsoDate | null;
  readonly stateNote: string;
  readonly stateBy: string;
  readonly stateAt: string | null;
  /** The day to ring again after a message was left; null in every other state. */
  readonly ringAgainOn: IsoDate | null;
  /** Is there a state change that can be undone? */
  readonly canUndo: boolean;
  readonly version: number;
}
/** 'due' this month, 'cannot-forecast' (must not hide), 'open' (worth casting already, for free slots). */
export const recallListNames = ['due', 'cannot-forecast', 'open'] as const;
export type RecallListName = (typeof recallListNames)[number];

export interface RecallFilter {
  readonly list?: RecallListName;
  readonly state?: WorkState;
  readonly action?: RecallEntry['action'];
  readonly overdue?: boolean;
  readonly childId?: string;
}

export interface FamilyLink {
  readonly id: string;
  readonly childId: string;
  readonly label: string;
  readonly expiresAt: string;
  readonly withdrawnAt: string | null;
  readonly createdBy: string;
  readonly createdAt: string;
  readonly lastUsedAt: string | null;
}
/** `token` is shown once; only its signature can be checked afterwards. */
export type NewFamilyLink = FamilyLink & { readonly token: string };

/** Two questions asked through a family's link. An answer is evidence for a clinician; by itself it changes nothing. */
export interface FamilyQuestion {
  readonly id: string;
  readonly childId: string;
  readonly deviceId: string | null;
  readonly askedBy: string;
  readonly askedAt: string;
  readonly answer: (FamilyAnswer & { readonly at: string }) | null;
}
export interface WaitingAnswer extends FamilyQuestion {
  readonly childName: string;
  readonly contact: string;
}

export interface AuditRow {
  readonly id: string;
  readonly at: string;
  readonly userId: string;
  readonly userName: string;
  readonly role: string;
  /** 'read', 'list', 'create', 'change', 'correct', 'withdraw', 'export', 'import', 'erase', 'sign-in', 'refused' ... */
  readonly action: string;
  readonly resource: string;
  readonly childId: string | null;
  /** How many children a list, a file or a run showed; the log finds each by its id. */
  readonly childrenShown: number;
  readonly detail: Readonly<Record<string, unknown>>;
}

export interface User {
  readonly id: string;
  /** Sign-in name, lower case. */
  readonly name: string;
  readonly displayName: string;
  readonly role: Role;
  readonly disabled: boolean;
  readonly hasPassword: boolean;
  readonly version: number;
}

/** What a clinic may set; defaults in default-settings.ts. */
export interface ClinicSettings {
  readonly clinicName: string;
  readonly contact: string;
  /** Chance of being beyond use before the next device is fitted that the clinic accepts for ordinary skin. */
  readonly acceptedChance: number;
  /** How much a day beyond use matters where the skin does not feel, against ordinary skin. */
  readonly harmInsensate: number;
  /** Slots of the whole clinic, where `clinicians` says nothing. */
  readonly castingSlotsPerWeek: number;
  /** Who casts, how often and when not; empty: nobody is told apart. */
  readonly clinicians: readonly {
    readonly name: string;
    /** Slots on any day of the week, and on named ones (1 Monday .. 7 Sunday). */
    readonly slotsPerWeek: number;
    readonly slotsByWeekday: readonly { readonly weekday: number; readonly slots: number }[];
    readonly away: readonly { readonly from: IsoDate; readonly to: IsoDate }[];
  }[];
  /** Jobs the workshop can take in a week, by device families (empty: all together); none: no limit. */
  readonly workshop: readonly { readonly families: readonly string[]; readonly jobsPerWeek: number }[];
  readonly workshopClosures: readonly { readonly from: IsoDate; readonly to: IsoDate }[];
  readonly holidays: readonly { readonly from: IsoDate; readonly to: IsoDate; readonly name: string }[];
  readonly closures: readonly IsoDate[];
  readonly language: string;
}

/** One change of the clinic's limits; rows saved together share their version. */
export interface LimitChangeRow extends LimitPlace {
  readonly id: string;
  readonly version: number;
  /** Null: back to the shipped figure. */
  readonly mm: number | null;
  /** What stood before, the clinic's or the shipped figure, mm. */
  readonly beforeMm: number;
  readonly reason: string;
  readonly by: string;
  readonly at: string;
}

/** One long piece of work; `done`/`total` count children (rows for an import). */
export interface JobRun {
  readonly id: string;
  readonly kind: 'forecasts' | 'recall' | 'import' | 'demo';
  readonly status: 'queued' | 'running' | 'done' | 'failed';
  readonly done: number;
  readonly total: number;
  readonly message: string;
  readonly startedAt: string;
  readonly finishedAt: string | null;
}

export interface Versioned<T> {
  readonly value: T;
  readonly version: number;
}

/** A write on a versioned row: pass the version read; a mismatch throws 'changed-meanwhile'; null writes regardless. */
export type Expected = number | null;

export interface VisitDays {
  readonly visits: number;
  /** Active children only; null without any reading. */
  readonly last: readonly { readonly childId: string; readonly date: IsoDate | null }[];
}

export interface Store {
  readonly children: {
    search(query: ChildSearch, page: PageRequest, actor: Actor): Promise<Page<ChildSummary>>;
    count(query: ChildSearch): Promise<number>;
    /** Throws 'not-found'. A scheduler or administrator gets it without diagnosis detail (conditions, markers, notes). */
    record(childId: string, actor: Actor): Promise<ChildRecord>;
    get(childId: string, actor: Actor): Promise<Versioned<Child>>;
    create(child: Child, today: IsoDate, actor: Actor): Promise<Versioned<Child>>;
    change(
      childId: string,
      change: Partial<Child>,
      today: IsoDate,
      expected: Expected,
      actor: Actor,
    ): Promise<Versioned<Child>>;
    /** Removes the record for good and leaves a tombstone (id, when, by, reason). */
    erase(childId: string, reason: string, actor: Actor): Promise<void>;
  };
  readonly visits: {
    /** Newest first. */
    list(childId: string, actor: Actor): Promise<readonly Visit[]>;
    /** Checks every reading (side, plausible range, date not before birth or after today); all or none are stored. */
    add(childId: string, visit: NewVisit, today: IsoDate, actor: Actor): Promise<readonly Measurement[]>;
    /** Everything a visit found goes to another day; gives how many entries that were. */
    move(
      childId: string,
      move: { readonly from: IsoDate; readonly to: IsoDate; readonly reason: string },
      today: IsoDate,
      actor: Actor,
    ): Promise<number>;
  };
  readonly measurements: {
    revisions(measurementId: string, actor: Actor): Promise<readonly MeasurementRevision[]>;
    /** Every reading ever corrected of a child, for display beside the chart. */
    corrected(childId: string, actor: Actor): Promise<readonly MeasurementRevision[]>;
    correct(
      measurementId: string,
      correction: Correction,
      today: IsoDate,
      expectedRevision: Expected,
      actor: Actor,
    ): Promise<MeasurementRevision>;
    /** Back to the revision before, itself as a new revision. */
    undoCorrection(measurementId: string, today: IsoDate, actor: Actor): Promise<MeasurementRevision>;
  };
  readonly markers: {
    add(marker: Omit<MaturityMarker, 'id'>, today: IsoDate, actor: Actor): Promise<MaturityMarker>;
  };
  readonly skinChecks: {
    /** Throws where the device is another child's or the date is not between birth and today. */
    add(check: Omit<SkinCheck, 'id'>, today: IsoDate, actor: Actor): Promise<SkinCheck>;
    withdraw(skinCheckId: string, reason: string, actor: Actor): Promise<void>;
  };
  readonly devices: {
    get(deviceId: string, actor: Actor): Promise<Versioned<Device>>;
    create(
      device: Omit<Device, 'id'> & { id?: string },
      today: IsoDate,
      actor: Actor,
    ): Promise<Versioned<Device>>;
    change(
      deviceId: string,
      change: Partial<Device>,
      today: IsoDate,
      expected: Expected,
      actor: Actor,
    ): Promise<Versioned<Device>>;
    /** Every state of the record, newest first. */
    versions(deviceId: string, actor: Actor): Promise<readonly DeviceVersion[]>;
    /** Back to the state before the last change, itself as a new change; throws 'nothing-to-undo'. */
    undoChange(deviceId: string, today: IsoDate, actor: Actor): Promise<Versioned<Device>>;
  };
  readonly events: {
    /** A fit verdict, an adjustment, a new cast ...; 'retired' also retires the device, 'delivered' makes one that was ordered worn. */
    add(event: Omit<DeviceEvent, 'id'>, today: IsoDate, actor: Actor): Promise<DeviceEvent>;
    /** Everything recorded of a device, corrections and what was withdrawn among it, in the order it was entered. */
    revisions(deviceId: string, actor: Actor): Promise<readonly EventRevision[]>;
    correct(
      eventId: string,
      correction: EventCorrection,
      today: IsoDate,
      actor: Actor,
    ): Promise<EventRevision>;
    /** The end or delivery of a device withdrawn, the device is as before it. */
    withdraw(eventId: string, reason: string, actor: Actor): Promise<void>;
    /** Back to the revision before, itself as a new revision. */
    undoCorrection(eventId: string, today: IsoDate, actor: Actor): Promise<EventRevision>;
  };
  readonly workshopJobs: {
    save(job: WorkshopJob, today: IsoDate, expected: Expected, actor: Actor): Promise<Versioned<WorkshopJob>>;
    all(): Promise<readonly WorkshopJob[]>;
  };
  readonly forecasts: {
    latestByChild(childId: string, actor: Actor): Promise<readonly DeviceForecast[]>;
    assessment(childId: string): Promise<StoredAssessment | null>;
    /** Of many children at once, by child; who has none is left out. */
    assessments(childIds: readonly string[]): Promise<ReadonlyMap<string, StoredAssessment>>;
    save(assessment: StoredAssessment): Promise<void>;
    /** How many active children have an assessment, of how many. */
    coverage(): Promise<{ readonly done: number; readonly total: number }>;
    /** Every past answer of a device, oldest first, without the curve: for forecast against what happened. */
    history(deviceIds?: readonly string[]): Promise<readonly PastForecast[]>;
  };
  readonly recall: {
    latestRun(): Promise<RecallRun | null>;
    runs(page: PageRequest): Promise<Page<RecallRun>>;
    run(runId: string): Promise<RecallRun>;
    /** The whole list in its planned order. */
    entries(runId: string, filter: RecallFilter, actor: Actor): Promise<readonly RecallRow[]>;
    entry(entryId: string, actor: Actor): Promise<RecallRow>;
    /** `appointment`: the day booked; left out it stays as it was. */
    setState(
      entryId: string,
      change: { readonly state: WorkState; readonly note: string; readonly appointment?: IsoDate | null },
      expected: Expected,
      actor: Actor,
    ): Promise<RecallRow>;
    /** How far people came with the latest list, for the plan of the next; empty before the first. */
    earlierVisits(): Promise<readonly EarlierVisit[]>;
    /** Keeps a finished list in one piece; what people did with the list before is carried over (recall/carry-over.ts). */
    keep(
      run: NewRecallRun,
      entries: readonly { readonly list: RecallListName; readonly entry: RecallEntry }[],
    ): Promise<RecallRun>;
    /** Takes the last state change of this entry back; throws 'nothing-to-undo'. */
    undo(entryId: string, actor: Actor): Promise<RecallRow>;
  };
  readonly familyLinks: {
    list(childId: string, actor: Actor): Promise<readonly FamilyLink[]>;
    create(childId: string, label: string, days: number, now: Date, actor: Actor): Promise<NewFamilyLink>;
    withdraw(linkId: string, now: Date, actor: Actor): Promise<void>;
    /** The child a token opens and the actor to read it as; throws 'link-not-valid' when forged, expired or withdrawn. */
    open(
      token: string,
      now: Date,
    ): Promise<{ readonly childId: string; readonly actor: Actor; readonly expiresAt: string }>;
  };
  readonly familyQuestions: {
    /** One open question a child; asked again it is for the device given now. */
    ask(childId: string, deviceId: string, now: Date, actor: Actor): Promise<void>;
    /** Open and answered ones a clinician has not decided on, newest first; whoever asks has read the child's record. */
    ofChild(childId: string): Promise<readonly FamilyQuestion[]>;
    /** Answers of active children that wait for a clinician, oldest first. */
    waiting(actor: Actor): Promise<readonly WaitingAnswer[]>;
    /** Throws 'not-found' where it is another child's or was answered. */
    answer(
      id: string,
      childId: string,
      answer: FamilyAnswer,
      now: Date,
      actor: Actor,
    ): Promise<FamilyQuestion>;
    decide(
      id: string,
      childId: string,
      decision: 'accepted' | 'set-aside',
      now: Date,
      actor: Actor,
    ): Promise<FamilyQuestion>;
  };
  readonly audit: {
    record(row: {
      actor: Actor;
      action: string;
      resource: string;
      childId?: string | null;
      /** Every child that was shown, where it is more than one. */
      childIds?: readonly string[];
      detail?: Record<string, unknown>;
    }): Promise<void>;
    /** Newest first. */
    list(
      filter: { childId?: string; userId?: string; action?: string; from?: string; to?: string },
      page: PageRequest,
    ): Promise<Page<AuditRow>>;
  };
  readonly users: {
    list(): Promise<readonly User[]>;
    get(userId: string): Promise<User>;
    create(
      user: { name: string; displayName?: string; role: Role; password?: string },
      actor: Actor,
    ): Promise<User>;
    change(
      userId: string,
      change: { displayName?: string; role?: Role; disabled?: boolean; password?: string },
      expected: Expected,
      actor: Actor,
    ): Promise<User>;
    /** Changes the own password, by the present one; ends every session and token of the account. */
    changeOwnPassword(userId: string, present: string, next: string, actor: Actor): Promise<User>;
    /** Ends every session, token and feed of an account whose provider gives it no role any more. */
    withdrawRole(userId: string, actor: Actor): Promise<void>;
    /** The account of this OpenID subject, made on first sight with this role; its role follows the provider. */
    fromOidc(subject: {
      issuer: string;
      subject: string;
      name: string;
      displayName: string;
      role: Role;
    }): Promise<User>;
    /** The user when name and password fit, else null; takes as long for an unknown name. */
    signIn(name: string, password: string): Promise<User | null>;
  };
  /** How often somebody tried to sign in, by the name typed. */
  readonly signInTries: {
    /** Counts a try; the time before which none is taken, null when this one may go on. */
    begin(account: string, now: Date): Promise<Date | null>;
    /** After a sign-in that succeeded. */
    clear(account: string): Promise<void>;
    sweep(now: Date): Promise<void>;
  };
  readonly settings: {
    get(): Promise<Versioned<ClinicSettings>>;
    change(
      change: Partial<ClinicSettings>,
      expected: Expected,
      actor: Actor,
    ): Promise<Versioned<ClinicSettings>>;
  };
  /** The clinic's own limits over the shipped fit rules. They say nothing of a child: reading them is not audited. */
  readonly fitLimits: {
    /** What stands; the version counts the saves, 0 before the first. */
    current(): Promise<Versioned<readonly ClinicLimit[]>>;
    /** That version alone: cheap enough to ask before every use of the rules. */
    version(): Promise<number>;
    /** All or none, each checked by devices/check-limit-changes. */
    change(
      changes: readonly LimitChange[],
      expected: Expected,
      actor: Actor,
    ): Promise<Versioned<readonly ClinicLimit[]>>;
    /** Every change ever made (of a family; null for all), newest first. */
    history(family: string | null, page: PageRequest): Promise<Page<LimitChangeRow>>;
    /** Devices in use of active children by what decides which limits reach them. */
    devicesInUse(): Promise<readonly DeviceGroup[]>;
  };
  /** Which defaults a practitioner of the clinic has read and signed. They say nothing of a child. */
  readonly signOffs: {
    /** The newest of each subject. */
    latest(): Promise<readonly SignOff[]>;
    sign(signed: Omit<SignOff, 'by' | 'at'>, actor: Actor): Promise<void>;
  };
  readonly populationOffsets: PopulationOffsets;
  readonly jobRuns: {
    /** Newest first, 20 of them; of one kind if given. */
    latest(kind?: JobRun['kind']): Promise<readonly JobRun[]>;
    get(id: string): Promise<JobRun>;
    /** The id of a new run, or null when one of this kind is still queued or running (no double work). */
    begin(kind: JobRun['kind'], now: Date): Promise<string | null>;
    setTotal(id: string, total: number): Promise<void>;
    /** What it is at, in words, while it runs. */
    say(id: string, message: string): Promise<void>;
    /** Books part `part` with `count` done, once however often it is called. `complete`: all of the total is done. */
    partDone(id: string, part: number, count: number): Promise<{ first: boolean; complete: boolean }>;
    isPartDone(id: string, part: number): Promise<boolean>;
    end(id: string, status: 'done' | 'failed', message: string, now: Date): Promise<void>;
  };
  /** For jobs and exports, which audit what they do themselves. */
  readonly caseload: {
    /** Ids of active children (of all, with 'any'), ascending. */
    ids(status?: 'any'): Promise<readonly string[]>;
    /** Those of the ids that are still children here. */
    present(ids: readonly string[]): Promise<readonly string[]>;
    records(ids: readonly string[]): Promise<readonly ChildRecord[]>;
    all(): Promise<Caseload>;
    /** Without readings, markers and skin checks, which are nine rows in ten. */
    devices(): Promise<Pick<Caseload, 'children' | 'devices' | 'events' | 'jobs'>>;
    /** Days on which active children were measured: how many in all since a day, and each child's last. */
    visitDays(since: IsoDate, until: IsoDate): Promise<VisitDays>;
    /** Changes whenever anything a person entered, or a forecast or recall list, does. */
    version(): Promise<string>;
    /**
     * Adds what is new and changes what differs, by id; rows not given stay. Append-only rows that differ get a new
     * revision with this reason. Whole or not at all.
     */
    write(rows: Partial<Caseload>, reason: string, today: IsoDate, actor: Actor): Promise<WriteCounts>;
  };
  /** What the clinic answered about its sheets; used without asking the next time. */
  readonly sheetAnswers: {
    list(): Promise<readonly SheetAnswer[]>;
    keep(answers: readonly Omit<SheetAnswer, 'updatedBy' | 'updatedAt'>[], actor: Actor): Promise<void>;
    /** False where there is none. */
    remove(sheet: string, question: string, actor: Actor): Promise<boolean>;
  };
  readonly imports: {
    create(checked: CheckedImport, actor: Actor): Promise<string>;
    /** Another dry run of the same files, before it is taken in. */
    again(id: string, checked: Pick<CheckedImport, 'plan' | 'caseload'>, actor: Actor): Promise<void>;
    /** Every import with when it was made, the newest first, up to 20. */
    latest(): Promise<readonly ImportRun[]>;
    /** The children a taken-in import added something to. */
    children(id: string): Promise<readonly string[]>;
    /** Ids in this caseload that are not kept yet, by table: what taking it in would add. */
    fresh(caseload: Caseload): Promise<AddedIds>;
    committed(id: string, added: AddedIds): Promise<void>;
    /** Takes out what the import added and nothing was built on since. What stays is counted by why. */
    takeBack(id: string, actor: Actor): Promise<TakenBack>;
    get(id: string): Promise<StoredImport>;
    /** Locks it for the rest of the transaction. */
    lock(id: string): Promise<StoredImport>;
    setStatus(id: string, status: StoredImport['status'], plan?: unknown): Promise<void>;
  };
  readonly sessions: {
    get(id: string): Promise<Record<string, unknown> | null>;
    set(id: string, data: Record<string, unknown>, expiresAt: Date): Promise<void>;
    remove(id: string): Promise<void>;
    sweep(now: Date): Promise<void>;
  };
  readonly accessTokens: {
    /** A new bearer token, shown once. */
    create(userId: string, expiresAt: Date): Promise<string>;
    userOf(token: string, now: Date): Promise<User | null>;
    revoke(token: string): Promise<void>;
  };
  readonly idempotency: {
    /**
     * Claims the key inside a transaction: null when it is new, else the answer given before. Another request with the
     * key waits here until the first has ended. Throws 'invalid-value' when it was used for another request.
     */
    claim(userId: string, key: string, requestHash: string): Promise<KeptAnswer | null>;
    keep(userId: string, key: string, answer: KeptAnswer): Promise<void>;
    sweep(before: Date): Promise<void>;
  };
  /** Puts work into the queue, in this transaction where it is one. */
  enqueue<N extends JobName>(name: N, data: JobData[N]): Promise<void>;
  readonly queue: WorkQueue;
  /** A random secret made once and kept, the same on every host. */
  secret(name: string): Promise<string>;
  /** Throws 'database-unavailable' unless the database answers and is migrated. */
  ready(): Promise<void>;
  /** Jobs in hand have so many seconds to end (5 when not said), then they are handed back. */
  close(seconds?: number): Promise<void>;
  /** Everything written by `work` is kept together or not at all. */
  transaction<T>(work: (store: Store) => Promise<T>): Promise<T>;
}

export interface SignOff {
  readonly subject: string;
  /** A digest of what was signed: another content is unsigned again. */
  readonly content: string;
  /** As the practitioner signs, with the profession and registration as typed. */
  readonly name: string;
  readonly profession: string;
  /** The sign-in name of who signed. */
  readonly by: string;
  readonly at: string;
}

export interface WriteCounts {
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
}

export interface SheetAnswer {
  /** The sheet by its headings; empty for a word that means the same in every sheet. */
  readonly sheet: string;
  readonly question: string;
  readonly asks: string;
  /** The headings of the sheet, for people. */
  readonly headings: string;
  readonly answer: string;
  readonly updatedBy: string;
  readonly updatedAt: string;
}

export interface CheckedImport {
  readonly plan: unknown;
  readonly caseload: Caseload;
  /** Kept until it is taken in, so that an answer does not need the file again. */
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** How it was read. */
  readonly options: unknown;
}

export type AddedIds = { readonly [K in keyof Caseload]: readonly string[] };

export interface ImportRun {
  readonly id: string;
  readonly status: StoredImport['status'];
  readonly createdAt: string;
  readonly createdBy: string;
}

export interface TakenBack {
  readonly removed: number;
  /** Records that stay, by why. */
  readonly stays: readonly { readonly why: string; readonly count: number }[];
}

export interface StoredImport {
  readonly id: string;
  readonly status: 'checked' | 'queued' | 'committed' | 'refused' | 'taken-back';
  readonly files: CheckedImport['files'] | null;
  readonly options: unknown;
  readonly added: AddedIds | null;
  readonly plan: unknown;
  /** Gone once committed or when it was erased. */
  readonly caseload: Caseload | null;
  readonly createdBy: string;
}

export interface KeptAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

export type NewRecallRun = Pick<RecallRun, 'today' | 'month' | 'summary' | 'modelVersion' | 'seed'> & {
  readonly inputsHash: string;
  readonly modelName: string;
};

export interface PastForecast extends KeptForecast {
  readonly childId: string;
  readonly family: string;
  readonly inputsHash: string;
  readonly modelVersion: string;
}
