import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import { denseBackward, denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';

/** Weight of the second-difference penalty against one observation: enough to bridge a gap between knots. */
const SMOOTH = 0.3;

/**
 * Spline coefficients of a mean curve over maturity by penalised least squares (Eilers & Marx 1996, Stat Sci
 * 11:89) on points (u, value).
 */
export function meanCoefficients(
  rows: readonly { u: number; value: number }[],
  knots: readonly number[],
): Float64Array {
  const spline = clampedBSpline(knots);
  const k = spline.size;
  const normal = new Float64Array(k * k);
  const right = new Float64Array(k);
  const v = new Float64Array(4);
  for (const { u, value } of rows) {
    const first = spline.basisValues(u, v, 0);
    for (let r = 0; r < 4; r++) {
      right[first + r] += v[r] * value;
      for (let s = 0; s < 4; s++) normal[(first + r) * k + first + s] += v[r] * v[s];
    }
  }
  for (let i = 0; i + 2 < k; i++)
    [1, -2, 1].forEach((a, r) => {
      [1, -2, 1].forEach((b, s) => {
        normal[(i + r) * k + i + s] += SMOOTH * a * b;
      });
    });
  for (let i = 0; i < k; i++) normal[i * k + i] += 1e-7;
  denseCholesky(normal, k);
  denseForward(normal, k, right);
  denseBackward(normal, k, right);
  return right;
}
