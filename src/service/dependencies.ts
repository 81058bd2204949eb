/**
 * What routes and pages are given, so that no handler reaches for a clock, a connection or the environment. Who may use
 * a route is said on the route (`config.access`) and checked before its handler; one that does not say it stops the start.
 * What a handler reads of a child writes its own line of the access log through the store method it calls, given
 * `actorOf(request)`.
 */
import type { IsoDate } from '../records/dates.js';
import type { Actor, Role, Store, StoredAssessment } from '../store/contract.js';
import type { Assessor } from './assessor.js';
import type { Clock } from './clock.js';
import type { Configuration } from './configuration.js';

export interface SignedInUser {
  readonly id: string;
  /** Sign-in name. */
  readonly name: string;
  readonly displayName: string;
  readonly role: Role;
  readonly passwordByOther: boolean;
}

export type Access = readonly Role[] | 'public';

export interface Jobs {
  /** Puts the work in the queue and gives its job-run id (progress: store.jobRuns.get). One at a time of a kind. */
  startForecasts(within?: Store): Promise<string>;
  /** The list of a month, or of today and the weeks ahead where none is chosen. */
  startRecallRun(month: IsoDate | null): Promise<string>;
  startImport(importId: string, actor: Actor, within?: Store): Promise<string>;
}

export interface ServiceDeps {
  readonly config: Configuration;
  readonly store: Store;
  readonly clock: Clock;
  readonly jobs: Jobs;
  /** Growth and forecasts of a record at hand, for charts and what-if. */
  readonly assessor: Assessor;
  /**
   * Forecasts, flags and suggestions of one child as of today: the stored ones when nothing they were computed from
   * has changed, else computed now (and stored).
   */
  assess(childId: string): Promise<StoredAssessment>;
  /** Demo sign-ins to show on the sign-in page, empty outside the demo. */
  readonly demoSignIns: readonly { readonly name: string; readonly password: string; readonly role: Role }[];
}
