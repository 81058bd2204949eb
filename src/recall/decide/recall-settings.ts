import { z } from 'zod';

/** What a clinic decides about recall. Every default is common practice without a source, to be set by the clinic. */
export const recallSettings = z.object({
  /**
   * Accepted chance of being beyond use before the next device is fitted, for ordinary skin in a limb device (harm 1 a
   * day). It says what keeping a device one day longer is worth against a day beyond use: waste = p / (1 - p), so one
   * third says half a day. Lower: more casts a year and more wear thrown away; higher: more days beyond use.
   */
  acceptedChance: z
    .number()
    .min(0.01)
    .max(0.5)
    .default(1 / 3),
  /** How much a day beyond use matters where the skin does not feel, against ordinary skin. */
  harmInsensate: z.number().min(1).max(20).default(3),
  /** The same by family, where the clinic differs from the family's rule. */
  harmADay: z.record(z.string(), z.number().min(0.1).max(20)).default({}),
  /** Days between the device being ready and the family coming to have it fitted. */
  fitWaitDays: z.number().int().min(0).max(60).default(0),
  /** The list looks ahead so many days, today's week among them. */
  aheadDays: z.number().int().min(7).max(182).default(35),
  /** A second device of the child joins a cast when its own date is at most so many days later. */
  combineWithinDays: z.number().int().min(0).max(182).default(56),
  /** Months between wear reviews where growth does not decide (adults, full-grown, palliative care). */
  wearReviewMonths: z.number().int().min(1).max(36).default(12),
  /** Months before the funder pays for the next device of a side, by family; 0 or absent for no rule. */
  eligibleAfterMonths: z.record(z.string(), z.number().min(0).max(60)).default({}),
});
export type RecallSettings = z.infer<typeof recallSettings>;
export type RecallSettingsInput = z.input<typeof recallSettings>;
