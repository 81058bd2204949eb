import type { Placed, Submodel } from './submodel.js';

/** `Submodel.pull` of the part of the covariance that only scales with where the points are. */
export function scaledPull(
  a: Placed,
  alpha: Float64Array,
  b: Placed,
  fixed: Float64Array,
  out: Float64Array,
): void {
  if (sum.length < b.n) sum = new Float64Array(2 * b.n);
  sum.fill(0, 0, b.n);
  for (let i = 0; i < a.n; i++) {
    const pull = a.scale[i] * alpha[i];
    const row = i * b.n;
    for (let j = 0; j < b.n; j++) sum[j] += pull * fixed[row + j];
  }
  for (let j = 0; j < b.n; j++) out[j] += b.scale[j] * sum[j];
}
let sum = new Float64Array(256);

/** `Submodel.covariance` of that part. */
export const scaledCovariance: Submodel['covariance'] = (a, b, fixed, _prior, out) => {
  for (let i = 0; i < a.n; i++)
    for (let j = 0; j < (a === b ? i + 1 : b.n); j++)
      out[i * b.n + j] = a.scale[i] * b.scale[j] * fixed[i * b.n + j];
};
