import { z } from 'zod';
import { measureId } from '../../records/measure.js';

/**
 * By how much a clinic's children stand off a model's mean curve: level, slope and bend over u, log-age relative to
 * the centre, held beyond the ages they were seen at. Model scale.
 */
export const populationOffset = z.object({
  measure: measureId,
  sex: z.enum(['male', 'female']),
  fromU: z.number(),
  toU: z.number(),
  coefficients: z.tuple([z.number(), z.number(), z.number()]),
});
export type PopulationOffset = z.infer<typeof populationOffset>;

export function offsetAt(o: PopulationOffset, u: number): number {
  const v = Math.min(Math.max(u, o.fromU), o.toU);
  return o.coefficients[0] + v * (o.coefficients[1] + v * o.coefficients[2]);
}
