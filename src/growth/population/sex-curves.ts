import type { CurveTable } from './curve-table.js';

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
