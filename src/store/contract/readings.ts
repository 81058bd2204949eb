/** What is measured and seen at visits. */

import { z } from 'zod';
import type { IsoDate } from '../../records/dates.js';
import {
  isoDateText,
  type MaturityMarker,
  type Measurement,
  measurementRecord,
  reason,
} from '../../records/records.js';
import type { SkinCheck } from '../../records/skin-check.js';
import type { Actor, Expected } from './actor.js';

/** Of a reading, mm or kg; what is plausible for its measure stands in its check. */
const MOST = 10_000;
const { measure, side } = measurementRecord.shape;

/** One date's readings. There is no visit row: a visit is the measurements of one child on one date. */
export const newVisit = z.object({
  date: isoDateText,
  observer: z.string().max(80).optional(),
  method: z.string().max(80).optional(),
  measurements: z
    .array(
      z.object({
        measure,
        side,
        value: z.number().positive().max(MOST).describe('mm; kg for weight'),
        method: z.string().max(80).optional(),
        technicalError: z.number().positive().max(MOST).nullish(),
        entered: z.string().max(80).optional().describe('what was typed, with its unit'),
      }),
    )
    .min(1)
    .max(100),
});
export type NewVisit = z.infer<typeof newVisit>;
export type NewReading = NewVisit['measurements'][number];

export const visit = z.object({ date: isoDateText, measurements: z.array(measurementRecord).readonly() });
export type Visit = Readonly<z.infer<typeof visit>>;

/** A new revision of a reading; give only what changes. */
export const correction = z.object({
  value: z.number().positive().max(MOST).optional(),
  side: side.optional(),
  measure: measure.optional(),
  date: isoDateText.optional(),
  withdrawn: z.boolean().optional().describe('true: entered in error, counts no more'),
  reason,
});
export type Correction = Readonly<z.infer<typeof correction>>;

/** Of whatever is only corrected: revision 1 is the original as entered, the highest counts. */
export const revised = {
  revision: z.number().int(),
  withdrawn: z.boolean(),
  reason: z.string(),
  by: z.string(),
  at: z.iso.datetime(),
};
export const revision = z.object({ measurement: measurementRecord, ...revised });
export type MeasurementRevision = Readonly<z.infer<typeof revision>>;

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
