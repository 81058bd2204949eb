import { normalCdf } from '../statistics/normal-cdf.js';
import { normalQuantile } from '../statistics/normal-quantile.js';

/**
 * Quantile of a mixture of normals, by bisection between the components' own quantiles, which enclose it.
 * mixtureQuantile(0.5, [1], [3], [1]) = 3.
 */
export function mixtureQuantile(
  p: number,
  weight: ArrayLike<number>,
  mean: ArrayLike<number>,
  sd: ArrayLike<number>,
): number {
  const z = normalQuantile(p);
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < weight.length; i++) {
    const q = mean[i] + z * sd[i];
    if (q < low) low = q;
    if (q > high) high = q;
  }
  for (let step = 0; step < 24 && high - low > 1e-4 * Math.abs(high); step++) {
    const mid = (low + high) / 2;
    let below = 0;
    for (let i = 0; i < weight.length; i++) below += weight[i] * normalCdf((mid - mean[i]) / sd[i]);
    if (below < p) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}
