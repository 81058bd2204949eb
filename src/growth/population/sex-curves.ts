import { type CurveTable, readTable } from './curve-table.js';
import type { Points } from './points.js';

/** Reference curves of one sex on the model's scale, one table per measure of the model. */
export interface SexCurves {
  readonly sex: 'male' | 'female';
  readonly median: readonly CurveTable[];
  /** SD between children of the true size: the reference's SD less its measurement error. */
  readonly sd: readonly CurveTable[];
  readonly peakVelocityAgeYears: number;
  /** Log-age at which growth is practically over. */
  readonly growthEnd: number;
}

/** SD between children at the age of each curve of the points, model scale. */
export function spreadAtAge({ sd }: SexCurves, { curveMeasure, curveAge, ages }: Points): Float64Array {
  return Float64Array.from(curveMeasure, (d, c) => readTable(sd[d], ages[curveAge[c]]));
}
