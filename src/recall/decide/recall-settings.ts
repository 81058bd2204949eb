import { z } from 'zod';

/** What a clinic decides about recall. Every default is common practice without a source, to be set by the clinic. */
export const recallSettings = z.object({
  /** Accepted chance of being outgrown before the replacement is fitted. */
  riskTolerance: z.number().min(0.001).max(0.5).default(0.1),
  /** The same for a child with insensate skin. */
  riskToleranceInsensate: z.number().min(0.001).max(0.5).default(0.05),
  /** Days between the device being ready and the family coming to have it fitted. */
  fitWaitDays: z.number().int().min(0).max(60).default(0),
  /** A cast is worth it once it is as likely as not that the old device fails within so many days of the new one's fitting. */
  worthItWithinDays: z.number().int().min(7).max(365).default(56),
  /** The planning window before the latest safe date is never shorter than this, days. */
  minimumWindowDays: z.number().int().min(7).max(182).default(28),
  /** A second device of the child joins the visit when its own latest safe date is at most so many days later. */
  combineWithinDays: z.number().int().min(0).max(182).default(56),
  /** Months between wear reviews where growth does not decide (adults, full-grown, palliative care). */
  wearReviewMonths: z.number().int().min(1).max(36).default(12),
  /** Months between usual reviews by age: the first row whose `belowYears` exceeds the age. */
  reviewMonths: z
    .array(z.object({ belowYears: z.number().positive(), months: z.number().positive() }))
    .min(1)
    .default([
      { belowYears: 2, months: 2 },
      { belowYears: 5, months: 3 },
      { belowYears: 12, months: 6 },
      { belowYears: 200, months: 6 },
    ]),
  reviewMonthsInsensate: z.number().positive().default(3),
  /** A forecast resting on readings older than this is not shown as one: the child must be measured, months. */
  staleMonths: z.number().positive().default(12),
  /** Months before the funder pays for the next device of a side, by family; 0 or absent for no rule. */
  eligibleAfterMonths: z.record(z.string(), z.number().min(0).max(60)).default({}),
});
export type RecallSettings = z.infer<typeof recallSettings>;
export type RecallSettingsInput = z.input<typeof recallSettings>;
