import type { Placed } from './submodel.js';

/** Per curve of the points: the first of its four spline functions, and their values. */
export interface TempoPlaced extends Placed {
  readonly first: Int32Array;
  readonly value: Float64Array;
}

/** What the spline parts at p, weighed by `alpha`, pull those at q by: through the coefficients, which are few. */
export function splinePull(
  p: TempoPlaced,
  alpha: Float64Array,
  q: TempoPlaced,
  covariance: Float64Array,
  width: number,
  out: Float64Array,
): void {
  const { weight, pulled, touched, asked, curve } = coefficientsFor(width, q.first.length);
  const count = touch(p.first, touched);
  for (let t = 0; t < count; t++) weight[touched[t]] = 0;
  for (let i = 0; i < p.n; i++) {
    const c = p.points.curve[i];
    for (let r = 0; r < 4; r++) weight[p.first[c] + r] += alpha[i] * p.value[4 * c + r];
  }
  const answers = touch(q.first, asked);
  for (let a = 0; a < answers; a++) {
    const row = asked[a] * width;
    let own = 0;
    for (let t = 0; t < count; t++) own += covariance[row + touched[t]] * weight[touched[t]];
    pulled[asked[a]] = own;
  }
  for (let c = 0; c < q.first.length; c++) {
    let sum = 0;
    for (let r = 0; r < 4; r++) sum += q.value[4 * c + r] * pulled[q.first[c] + r];
    curve[c] = sum;
  }
  for (let j = 0; j < q.n; j++) out[j] += curve[q.points.curve[j]];
}

/**
 * Covariance of the spline parts, curve by curve, in an array that the next call uses again. A curve of p meets every
 * coefficient that q touches once, however many curves of q share it.
 */
export function splinePart(
  p: TempoPlaced,
  q: TempoPlaced,
  covariance: Float64Array,
  width: number,
): Float64Array {
  const [rows, columns] = [p.first.length, q.first.length];
  if (between.length < rows * columns) between = new Float64Array(2 * rows * columns);
  const { value: v } = p;
  const { value: u, first } = q;
  const { pulled: met, touched, reached } = coefficientsFor(width, columns);
  const all = touch(first, touched);
  const symmetric = p === q;
  for (let i = 0; i < rows; i++) {
    const a = p.first[i] * width;
    const [b, c, d] = [a + width, a + 2 * width, a + 3 * width];
    const [v0, v1, v2, v3] = [v[4 * i], v[4 * i + 1], v[4 * i + 2], v[4 * i + 3]];
    const count = symmetric ? reached[i] : all;
    for (let t = 0; t < count; t++) {
      const k = touched[t];
      met[k] =
        v0 * covariance[a + k] + v1 * covariance[b + k] + v2 * covariance[c + k] + v3 * covariance[d + k];
    }
    const end = symmetric ? i + 1 : columns;
    for (let j = 0; j < end; j++) {
      const k = first[j];
      const r = 4 * j;
      const sum = u[r] * met[k] + u[r + 1] * met[k + 1] + u[r + 2] * met[k + 2] + u[r + 3] * met[k + 3];
      between[i * columns + j] = sum;
      if (symmetric) between[j * columns + i] = sum;
    }
  }
  return between;
}
let between = new Float64Array(4096);

/** Lists the coefficients that curves touch, four from the first of each, every one once, in the order they are met; and how many each curve and those before it do. */
function touch(first: Int32Array, touched: Int32Array): number {
  const { noted, reached } = coefficients;
  let count = 0;
  for (let c = 0; c < first.length; c++) {
    for (let k = first[c]; k < first[c] + 4; k++) {
      if (noted[k]) continue;
      noted[k] = 1;
      touched[count++] = k;
    }
    reached[c] = count;
  }
  for (let t = 0; t < count; t++) noted[touched[t]] = 0;
  return count;
}

/** What the sums over coefficients work with and do not keep. */
let coefficients = makeCoefficients(0, 0);
function makeCoefficients(width: number, curves: number) {
  const [weight, pulled] = [0, 1].map(() => new Float64Array(width));
  const [touched, asked] = [0, 1].map(() => new Int32Array(width));
  const [reached, curve] = [new Int32Array(curves), new Float64Array(curves)];
  return { weight, pulled, touched, asked, noted: new Uint8Array(width), reached, curve };
}
function coefficientsFor(width: number, curves: number): typeof coefficients {
  if (coefficients.weight.length !== width || coefficients.curve.length < curves)
    coefficients = makeCoefficients(width, 2 * curves);
  return coefficients;
}
