import { normalCdf } from '../../statistics/normal-cdf.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';

/** Fraction of the mixture's own spread a quantile is found to. */
const TOLERANCE = 1e-6;

/**
 * Quantile of a mixture of normals by Newton's steps, kept between the components' own quantiles, which enclose
 * it, and halving where a step would leave them. mixtureQuantile(0.5, [1], [3], [1]) = 3.
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
  let at = 0;
  for (let i = 0; i < weight.length; i++) {
    const q = mean[i] + z * sd[i];
    if (q < low) low = q;
    if (q > high) high = q;
    at += weight[i] * q;
  }
  const close = TOLERANCE * (high - low);
  for (let step = 0; step < 60 && high - low > close; step++) {
    let below = 0;
    let density = 0;
    for (let i = 0; i < weight.length; i++) {
      const t = (at - mean[i]) / sd[i];
      below += weight[i] * normalCdf(t);
      density += (weight[i] / sd[i]) * Math.exp((-t * t) / 2);
    }
    if (below < p) low = at;
    else high = at;
    const next = at - ((below - p) * ROOT_TWO_PI) / density;
    if (Math.abs(next - at) <= close) return next;
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return at;
}

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
