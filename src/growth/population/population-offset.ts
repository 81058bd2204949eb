import { z } from 'zod';
import { measureId } from '../../records/measure.js';
import { ageOfLogAge, logAge } from './growth-age.js';
import { isLogMeasure } from './growth-scale.js';

/** How many numbers an offset has: level, slope, curvature and two finer shapes over growth. */
export const OFFSET_SIZE = 5;

/** Offsets are learned from this age on: infants have curves of their own. */
export const OFFSET_FROM_YEARS = 2;

/**
 * By how much a clinic's children stand off a model's mean curve: Legendre polynomials over u, log-age relative to
 * the centre, held beyond the ages they were seen at (before them, in population SD). Model scale.
 */
export const populationOffset = z.object({
  measure: measureId,
  sex: z.enum(['male', 'female']),
  fromU: z.number(),
  toU: z.number(),
  coefficients: z.array(z.number()).length(OFFSET_SIZE),
  /** How many children it was learned from. */
  children: z.number().int(),
});
export type PopulationOffset = z.infer<typeof populationOffset>;

/** The middle of growth, 2 to 20 years, and half its length on u: where the polynomials are of one size. */
const MIDDLE = -0.65;
const HALF = 1.05;

export function offsetBasis(u: number): number[] {
  const t = (u - MIDDLE) / HALF;
  const t2 = t * t;
  return [1, t, (3 * t2 - 1) / 2, (t * (5 * t2 - 3)) / 2, (t2 * (35 * t2 - 30) + 3) / 8];
}

export function offsetAt(o: PopulationOffset, u: number): number {
  const basis = offsetBasis(Math.min(Math.max(u, o.fromU), o.toU));
  return o.coefficients.reduce((sum, c, k) => sum + c * basis[k], 0);
}

/** The middle of the ages an offset was seen at, years, and how far the children stand off there: mm, or a share for girths and weight. */
export function offsetInTheMiddle(o: PopulationOffset, peakVelocityAgeYears: number) {
  const u = (o.fromU + o.toU) / 2;
  const off = offsetAt(o, u);
  const ageYears = ageOfLogAge(u + logAge(peakVelocityAgeYears));
  return isLogMeasure(o.measure)
    ? { ageYears, share: Math.expm1(off), mm: null }
    : { ageYears, share: null, mm: off };
}
