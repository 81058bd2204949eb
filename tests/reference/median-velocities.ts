import { type MeasureId, measureIds } from '../../src/records/measure.js';
import { curveOf } from '../../src/reference/reference.js';
import type { References } from '../../src/reference/reference-curve.js';
import { type ReferenceSex, referenceSex } from '../../src/reference/reference-table.js';

interface MedianVelocity {
  readonly measure: MeasureId;
  readonly sex: ReferenceSex;
  /** Middle of the quarter of a year the velocity is taken over. */
  readonly ageYears: number;
  /** mm (kg for weight) a year. */
  readonly perYear: number;
}

const QUARTER = 1 / 4;

/** How fast the median child of every measure and sex grows, a quarter of a year at a time. */
export function medianVelocities(refs: References): MedianVelocity[] {
  return measureIds.flatMap((measure) =>
    referenceSex.options.flatMap((sex) => {
      const curve = curveOf(refs, measure, sex);
      if (!curve) return [];
      const first = curve.fromYears;
      return Array.from({ length: Math.floor((curve.toYears - first) / QUARTER) }, (_, i) => {
        const from = first + i * QUARTER;
        const perYear = (curve.at(from + QUARTER).m - curve.at(from).m) / QUARTER;
        return { measure, sex, ageYears: from + QUARTER / 2, perYear };
      });
    }),
  );
}
