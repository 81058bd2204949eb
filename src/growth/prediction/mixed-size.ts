import type { MeasureId } from '../../records/measure.js';
import { isLogMeasure } from '../population/growth-scale.js';

/** One component's answer at several places: its weight, and means and variances on the model's scale. */
export interface Sizes {
  readonly weight: number;
  readonly mean: Float64Array;
  readonly variance: Float64Array;
}

/** Mean and SD over all components at place `j`, in the measure's own unit. */
export function mixedSize(id: MeasureId, views: readonly Sizes[], j: number): { mean: number; sd: number } {
  let first = 0;
  let second = 0;
  for (const v of views) {
    const variance = v.variance[j];
    const m = isLogMeasure(id) ? Math.exp(v.mean[j] + variance / 2) : v.mean[j];
    const spread = isLogMeasure(id) ? m * m * Math.expm1(variance) : variance;
    first += v.weight * m;
    second += v.weight * (m * m + spread);
  }
  return { mean: first, sd: Math.sqrt(Math.max(0, second - first * first)) };
}
