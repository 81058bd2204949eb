/**
 * What the store promises to service, pages and commands. Ground rows are what people entered; measurements,
 * markers and device events are append-only (a correction is a new revision, the original stays). Every method that
 * touches a child's data takes the `actor` and writes its own audit row in the same transaction, so nobody can forget.
 * Ids are stable text; `version` is for lost-update checks (HTTP ETag) and starts at 1.
 */

import type { Writable } from 'node:stream';
import type { CaseloadRepository } from './contract/caseload.js';
import type { ChildrenRepository } from './contract/children.js';
import type { DevicesRepository, EventsRepository, WorkshopJobsRepository } from './contract/devices.js';
import type { FamilyLinksRepository, FamilyQuestionsRepository } from './contract/family.js';
import type { ForecastsRepository } from './contract/forecasts.js';
import type { ImportsRepository, SheetAnswersRepository } from './contract/imports.js';
import type {
  AccessTokensRepository,
  AuditRepository,
  IdempotencyRepository,
  SessionsRepository,
  SignInTriesRepository,
  UsersRepository,
} from './contract/people.js';
import type {
  MarkersRepository,
  MeasurementsRepository,
  SkinChecksRepository,
  VisitsRepository,
} from './contract/readings.js';
import type { RecallRepository } from './contract/recall.js';
import type { FitLimitsRepository, SettingsRepository, SignOffsRepository } from './contract/settings.js';
import type { JobData, JobName, JobRunsRepository, PopulationOffsets, WorkQueue } from './contract/work.js';

export * from './contract/actor.js';
export * from './contract/caseload.js';
export * from './contract/children.js';
export * from './contract/clinic-settings.js';
export * from './contract/devices.js';
export * from './contract/family.js';
export * from './contract/forecasts.js';
export * from './contract/imports.js';
export * from './contract/people.js';
export * from './contract/readings.js';
export * from './contract/recall.js';
export * from './contract/settings.js';
export * from './contract/work.js';

export interface Store {
  readonly children: ChildrenRepository;
  readonly visits: VisitsRepository;
  readonly measurements: MeasurementsRepository;
  readonly markers: MarkersRepository;
  readonly skinChecks: SkinChecksRepository;
  readonly devices: DevicesRepository;
  readonly events: EventsRepository;
  readonly workshopJobs: WorkshopJobsRepository;
  readonly forecasts: ForecastsRepository;
  readonly recall: RecallRepository;
  readonly familyLinks: FamilyLinksRepository;
  readonly familyQuestions: FamilyQuestionsRepository;
  readonly audit: AuditRepository;
  readonly users: UsersRepository;
  readonly signInTries: SignInTriesRepository;
  readonly settings: SettingsRepository;
  readonly fitLimits: FitLimitsRepository;
  readonly signOffs: SignOffsRepository;
  readonly populationOffsets: PopulationOffsets;
  readonly jobRuns: JobRunsRepository;
  readonly caseload: CaseloadRepository;
  readonly sheetAnswers: SheetAnswersRepository;
  readonly imports: ImportsRepository;
  readonly sessions: SessionsRepository;
  readonly accessTokens: AccessTokensRepository;
  readonly idempotency: IdempotencyRepository;
  /** Puts work into the queue, in this transaction where it is one. */
  enqueue<N extends JobName>(name: N, data: JobData[N]): Promise<void>;
  readonly queue: WorkQueue;
  /** A random secret made once and kept, the same on every host. */
  secret(name: string): Promise<string>;
  /** Throws 'database-unavailable' unless the database answers and is migrated. */
  ready(): Promise<void>;
  /** All that is kept, gzipped, as restore reads it; the number of rows once all are written. */
  backup(to: Writable): Promise<number>;
  /** Jobs in hand have so many seconds to end (5 when not said), then they are handed back. */
  close(seconds?: number): Promise<void>;
  /** Everything written by `work` is kept together or not at all. */
  transaction<T>(work: (store: Store) => Promise<T>): Promise<T>;
}
