import { z } from 'zod';
import { measureId } from '../../records/measure.js';

const bySex = <T extends z.ZodType>(item: T) => z.object({ male: item, female: item });

/**
 * A population whose growth was learned from children followed for years: for each sex the mean curve of the
 * longitudinal measures over maturity, what tempo and intensity do to it, and how children differ about it.
 * A curve is spline coefficients per measure, one measure after another (k functions each).
 */
export const longitudinalPopulation = z.object({
  measures: z.array(measureId),
  /** Knots on log-age relative to the centre (mean age of peak height velocity). */
  knots: z.array(z.number()),
  tempoSd: bySex(z.number()),
  intensitySd: bySex(z.number()),
  /** Ages between which the tempo warp comes in. */
  warpFromYears: z.number(),
  warpFullYears: z.number(),
  mean: bySex(z.array(z.number())),
  tempoEffect: bySex(z.array(z.number())),
  intensityEffect: bySex(z.array(z.number())),
  /** Covariance of a child's coefficients about the mean, both sexes. */
  covariance: z.array(z.array(z.number())),
  /** Residual process along the calendar, not maturity: SD per measure, correlation, length scale in years. */
  residualSd: z.array(z.number()),
  residualCorrelation: z.array(z.array(z.number())),
  residualYears: z.number(),
});
export type LongitudinalPopulation = z.infer<typeof longitudinalPopulation>;
