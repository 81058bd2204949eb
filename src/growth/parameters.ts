import { z } from 'zod';
import { measureId } from '../measurements/measure.js';

/** models/<name>/parameters.json: settings and estimates, no child's rows. Written by `doorpost fit growth`. */
export const growthParameters = z.object({
  name: z.string().min(1),
  version: z.string().min(1),
  seed: z.number().int(),
  /** Measures in the order of every vector and matrix below. */
  measures: z.array(measureId),
  /** Correlation of true size between measures at one age, from cross-sectional records. */
  correlation: z.array(z.array(z.number())),
  zScore: z.object({
    sizeShare: z.number().min(0).max(1),
    lengthScale: z.number().positive(),
    residualSharing: z.number().min(0).max(1),
    sideWandering: z.number().min(0).max(1),
  }),
  peakVelocityAgeYears: z.object({ male: z.number(), female: z.number() }),
  /** Age at which growth is practically over. */
  growthEndYears: z.object({ male: z.number(), female: z.number() }),
});
export type GrowthParameters = z.infer<typeof growthParameters>;
