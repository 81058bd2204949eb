import { z } from 'zod';
import { measureId } from '../../records/measure.js';
import { longitudinalPopulation } from './longitudinal-population.js';

const ageShare = z.object({ ageYears: z.number(), share: z.number().min(0).max(1) });

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
    sideResidual: z.number().min(0).max(1),
    headWiden: z.number().min(1),
  }),
  /** Learned from children followed for years. */
  longitudinal: longitudinalPopulation,
  crossSectional: z.object({
    ownSizeShare: z.number(),
    ownSizeShareSoftTissue: z.number(),
    ownLength: z.number(),
    widen: z.number().min(1),
  }),
  tempo: z.object({
    tempoPoints: z.number().int(),
    intensityPoints: z.number().int(),
    residualSharing: z.number(),
    sideResidual: z.number(),
    infantSd: z.number(),
    infantUntilYears: z.number(),
    infantLength: z.number(),
  }),
  /** Share of the z-score submodel by age at the last measurement, straight lines between. */
  zScoreShare: z.object({ male: z.array(ageShare), female: z.array(ageShare) }),
  peakVelocityAgeYears: z.object({ male: z.number(), female: z.number() }),
  /** Age at which growth is practically over. */
  growthEndYears: z.object({ male: z.number(), female: z.number() }),
});
export type GrowthParameters = z.infer<typeof growthParameters>;
