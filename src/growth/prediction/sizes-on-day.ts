import type { Conditioned } from '../child/conditioned.js';
import { splitOf } from '../child/parts.js';
import { sides } from '../population/points.js';
import { conditionalGaussian, type Row } from './conditional-gaussian.js';
import type { Sizes } from './mixed-size.js';

/**
 * Every component's mean and variance of many series on one day. Asked for together, the readings' covariance is factored
 * once a component and part instead of once a series: that is nearly all the work.
 */
export function sizesOnDay({ components, parts, prior }: Conditioned, rows: readonly Row[]): Sizes[] {
  const splits = rows.map((r) => splitOf(parts, r.measure, r.side));
  const apart = [...new Set(splits.map((s) => s.part))].filter((part) => part > 0);
  const views = [0, ...apart].map((part) => {
    const at = rows.flatMap((_, i) => (part === 0 || splits[i].part === part ? [i] : []));
    const placed = at.map((i) => ({ ...rows[i], side: part === 0 ? splits[i].common : sides.difference }));
    const share = at.map((i) => (part === 0 ? 1 : splits[i].share));
    return { at, share, gaussian: conditionalGaussian(parts, part, placed, prior) };
  });
  return components.map((w) => {
    const mean = new Float64Array(rows.length);
    const variance = new Float64Array(rows.length);
    for (const { at, share, gaussian } of views) {
      const means = gaussian.mean(w);
      at.forEach((i, k) => {
        mean[i] += share[k] * means[k];
      });
      const covariance = gaussian.covariance(w);
      at.forEach((i, k) => {
        variance[i] += share[k] ** 2 * covariance[k * at.length + k];
      });
    }
    return { weight: w.weight, mean, variance };
  });
}
