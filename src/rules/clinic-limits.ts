/**
 * What a clinic has set for itself over the shipped fit rules: single figures in mm, each with the reason and with who
 * set it when. The shipped figure is never lost: it stays in its rule, and 'back to shipped' is a change like another.
 */
import { z } from 'zod';
import { measureId } from '../records/measure.js';

/** Figures of a dimension that move a forecast and that a clinic may set; what each means stands in fit-rule.ts. */
export const limitFigures = ['allowanceMm', 'allowanceBehindToesMm', 'tightWithinMm', 'toleranceMm'] as const;
export type LimitFigure = (typeof limitFigures)[number];

export const limitPlace = {
  family: z.string().min(1).max(60),
  measure: measureId,
  figure: z
    .enum(limitFigures)
    .describe(
      'allowanceMm: growth since the cast at which the dimension counts as outgrown; allowanceBehindToesMm: the same where ' +
        'the plate ends behind the toes; tightWithinMm: less room is called tight; toleranceMm: one SD of how far a ' +
        'device’s real limit lies from the figure',
    ),
};

export const limitChange = z.strictObject({
  ...limitPlace,
  /** The clinic's own figure, mm; null for back to the shipped one. */
  mm: z.number().min(0).max(1000).nullable(),
  /** Why: an audit, a paper, a judgement. Stands as the source beside the figure. */
  reason: z.string().trim().min(4).max(400),
});
export type LimitChange = z.infer<typeof limitChange>;
export type LimitPlace = Pick<LimitChange, 'family' | 'measure' | 'figure'>;

/** A clinic's own figure as it stands. */
export interface ClinicLimit extends LimitPlace {
  readonly mm: number;
  readonly reason: string;
  /** Sign-in name of who set it. */
  readonly by: string;
  /** Moment it was set, ISO 8601. */
  readonly at: string;
}

/** What the clinic has set at a place, if anything. */
export const limitAt = (limits: readonly ClinicLimit[], place: LimitPlace): ClinicLimit | undefined =>
  limits.find((l) => limitKey(l) === limitKey(place));

export const limitKey = ({ family, measure, figure }: LimitPlace): string => `${family}/${measure}/${figure}`;
