/** What is measured and seen at visits. */

import { z } from 'zod';
import { isoDateText, measurementRecord, reason } from '../../records/records.js';
import type { skinCheckRecord } from '../../records/skin-check.js';

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

/** What is not said is nothing. */
export type NewSkinCheck = Omit<z.input<typeof skinCheckRecord>, 'id'>;

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
