import { type Parts, splitOf } from '../child/parts.js';
import { type SideCode, sides } from '../population/points.js';
import type { ChildPrior } from '../population/submodel.js';
import { type ConditionalGaussian, conditionalGaussian, type Row } from './conditional-gaussian.js';

/** One series over all parts of the readings: its mean at some points, its covariance at others. */
export function seriesGaussian(
  parts: Parts,
  meanAt: readonly Row[],
  covarianceAt: readonly Row[],
  prior: ChildPrior,
): Pick<ConditionalGaussian, 'mean' | 'covariance'> {
  const { common, part, share } = splitOf(parts, meanAt[0].measure, meanAt[0].side);
  const at = (which: number, rows: readonly Row[], side: SideCode) =>
    conditionalGaussian(
      parts,
      which,
      rows.map((r) => ({ ...r, side })),
      prior,
    );
  const [mean, covariance] = [meanAt, covarianceAt].map((rows) => at(0, rows, common));
  if (part === 0) return { mean: mean.mean, covariance: covariance.covariance };
  const [meanApart, covarianceApart] = [meanAt, covarianceAt].map((rows) => at(part, rows, sides.difference));
  const sum = (a: Float64Array, b: Float64Array, times: number) => a.map((v, i) => v + times * b[i]);
  return {
    mean: (w) => sum(mean.mean(w), meanApart.mean(w), share),
    covariance: (w) => sum(covariance.covariance(w), covarianceApart.covariance(w), share * share),
  };
}
