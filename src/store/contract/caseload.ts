/** All records at once. */

import type { Caseload, ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Actor } from './actor.js';

export interface VisitDays {
  readonly visits: number;
  /** Active children only; null without any reading. */
  readonly last: readonly { readonly childId: string; readonly date: IsoDate | null }[];
}

export interface WriteCounts {
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
}

/** For jobs and exports, which audit what they do themselves. */
export interface CaseloadRepository {
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
  /** Forgets changes so old that nobody has kept an answer since. */
  sweepChanges(before: Date): Promise<void>;
  /**
   * Adds what is new and changes what differs, by id; rows not given stay. Append-only rows that differ get a new
   * revision with this reason. Whole or not at all.
   */
  write(rows: Partial<Caseload>, reason: string, today: IsoDate, actor: Actor): Promise<WriteCounts>;
}
