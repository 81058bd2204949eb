import type { Placed } from './submodel.js';

/** Per curve of the points: the first of its four spline functions, and their values. */
export interface TempoPlaced extends Placed {
  readonly first: Int32Array;
  readonly value: Float64Array;
}

/** What the spline parts at p, weighed by `alpha`, pull those at q by: through the coefficients, which are few. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: dear sums over points, splines and coefficients touched, written out for speed
export function splinePull(
  p: TempoPlaced,
  alpha: Float64Array,
  q: TempoPlaced,
  covariance: Float64Array,
  width: number,
  out: Float64Array,
): void {
  const { weight, pulled, done, curve, touched, noted } = coefficientsFor(width, q.first.length);
  let count = 0;
  for (let i = 0; i < p.n; i++) {
    const c = p.points.curve[i];
    const from = p.first[c];
    for (let r = 0; r < 4; r++) {
      if (!noted[from + r]) {
        touched[count++] = from + r;
        noted[from + r] = 1;
      }
      weight[from + r] += alpha[i] * p.value[4 * c + r];
    }
  }
  done.fill(0);
  for (let c = 0; c < q.first.length; c++) {
    let sum = 0;
    for (let r = 0; r < 4; r++) {
      const at = q.first[c] + r;
      if (!done[at]) {
        const row = at * width;
        let own = 0;
        for (let j = 0; j < count; j++) own += covariance[row + touched[j]] * weight[touched[j]];
        pulled[at] = own;
        done[at] = 1;
      }
      sum += q.value[4 * c + r] * pulled[at];
    }
    curve[c] = sum;
  }
  for (let j = 0; j < q.n; j++) out[j] += curve[q.points.curve[j]];
  for (let j = 0; j < count; j++) {
    weight[touched[j]] = 0;
    noted[touched[j]] = 0;
  }
}

/** What `splinePull` works with and does not keep: few of the coefficients are touched, and those are put back to nought. */
let coefficients = makeCoefficients(0, 0);
function makeCoefficients(width: number, curves: number) {
  const [weight, pulled] = [0, 1].map(() => new Float64Array(width));
  const [noted, done] = [0, 1].map(() => new Uint8Array(width));
  return { weight, pulled, touched: new Int32Array(width), noted, done, curve: new Float64Array(curves) };
}
function coefficientsFor(width: number, curves: number): typeof coefficients {
  if (coefficients.weight.length !== width || coefficients.curve.length < curves)
    coefficients = makeCoefficients(width, 2 * curves);
  return coefficients;
}

/** Covariance of the spline parts, curve by curve, in an array that the next call uses again. */
export function splinePart(
  p: TempoPlaced,
  q: TempoPlaced,
  covariance: Float64Array,
  width: number,
): Float64Array {
  const [rows, columns] = [p.first.length, q.first.length];
  if (between.length < rows * columns) between = new Float64Array(2 * rows * columns);
  const { value: v } = p;
  const { value: u } = q;
  const symmetric = p === q;
  for (let i = 0; i < rows; i++) {
    const r = 4 * i;
    const v0 = v[r];
    const v1 = v[r + 1];
    const v2 = v[r + 2];
    const v3 = v[r + 3];
    const from = p.first[i] * width;
    const end = symmetric ? i + 1 : columns;
    for (let j = 0; j < end; j++) {
      const c = 4 * j;
      const at = from + q.first[j];
      const b = at + width;
      const d = b + width;
      const e = d + width;
      const sum =
        u[c] * (v0 * covariance[at] + v1 * covariance[b] + v2 * covariance[d] + v3 * covariance[e]) +
        u[c + 1] *
          (v0 * covariance[at + 1] +
            v1 * covariance[b + 1] +
            v2 * covariance[d + 1] +
            v3 * covariance[e + 1]) +
        u[c + 2] *
          (v0 * covariance[at + 2] +
            v1 * covariance[b + 2] +
            v2 * covariance[d + 2] +
            v3 * covariance[e + 2]) +
        u[c + 3] *
          (v0 * covariance[at + 3] +
            v1 * covariance[b + 3] +
            v2 * covariance[d + 3] +
            v3 * covariance[e + 3]);
      between[i * columns + j] = sum;
      if (symmetric) between[j * columns + i] = sum;
    }
  }
  return between;
}
let between = new Float64Array(4096);
