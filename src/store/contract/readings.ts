/** What is measured and seen at visits. */

import type { IsoDate } from '../../records/dates.js';
import type { MeasureId, Side } from '../../records/measure.js';
import type { MaturityMarker, Measurement } from '../../records/records.js';
import type { SkinCheck } from '../../records/skin-check.js';
import type { Actor, Expected } from './actor.js';

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

export interface VisitsRepository {
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
}

export interface MeasurementsRepository {
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
}

export interface MarkersRepository {
  add(marker: Omit<MaturityMarker, 'id'>, today: IsoDate, actor: Actor): Promise<MaturityMarker>;
}

export interface SkinChecksRepository {
  /** Throws where the device is another child's or the date is not between birth and today. */
  add(check: Omit<SkinCheck, 'id'>, today: IsoDate, actor: Actor): Promise<SkinCheck>;
  withdraw(skinCheckId: string, reason: string, actor: Actor): Promise<void>;
}
