import type { Placed } from './submodel.js';

/** Per curve of the points: the first of its four spline functions, and their values. */
export interface TempoPlaced extends Placed {
  readonly first: Int32Array;
  readonly value: Float64Array;
}

/** Covariance of all measures' spline coefficients, one measure after another; row-major. */
export interface CoefficientCovariance {
  readonly width: number;
  readonly covariance: Float64Array;
}

/** What the spline parts at p, weighed by `alpha`, pull those at q by: through the coefficients, which are few. */
export function splinePull(
  p: TempoPlaced,
  alpha: Float64Array,
  q: TempoPlaced,
  { covariance, width }: CoefficientCovariance,
  out: Float64Array,
): void {
  const using = roomFor(width, q.first.length);
  const { row: weight, spans, pulled, curve } = using;
  const count = spansOf(p, using);
  for (let s = 0; s < count; s += 2) weight.fill(0, spans[s], spans[s + 1]);
  for (let i = 0; i < p.n; i++) {
    const c = p.points.curve[i];
    for (let r = 0; r < 4; r++) weight[p.first[c] + r] += alpha[i] * p.value[4 * c + r];
  }
  pulled.fill(Number.NaN);
  for (let c = 0; c < q.first.length; c++) {
    let sum = 0;
    for (let r = 0; r < 4; r++) {
      const at = q.first[c] + r;
      if (Number.isNaN(pulled[at])) {
        const row = at * width;
        let own = 0;
        for (let s = 0; s < count; s += 2)
          for (let j = spans[s]; j < spans[s + 1]; j++) own += covariance[row + j] * weight[j];
        pulled[at] = own;
      }
      sum += q.value[4 * c + r] * pulled[at];
    }
    curve[c] = sum;
  }
  for (let j = 0; j < q.n; j++) out[j] += curve[q.points.curve[j]];
}

/** Adds the covariance of the spline parts to `out` (p.n x q.n; lower triangle where p === q). */
export function addSplinePart(
  p: TempoPlaced,
  q: TempoPlaced,
  { covariance, width }: CoefficientCovariance,
  out: Float64Array,
): void {
  const { first, value } = q;
  const columns = first.length;
  const using = roomFor(width, columns);
  const { row, spans, curve: between } = using;
  const count = spansOf(q, using);
  const rowOf = p.points.curve;
  const columnOf = q.points.curve;
  // Curves are numbered as they first appear: with one point each, the lower triangle needs those so far.
  const ascending = p === q && p.n === columns;
  let made = -1;
  for (let i = 0; i < p.n; i++) {
    const c = rowOf[i];
    if (c !== made) {
      made = c;
      const v0 = p.value[4 * c];
      const v1 = p.value[4 * c + 1];
      const v2 = p.value[4 * c + 2];
      const v3 = p.value[4 * c + 3];
      const r0 = p.first[c] * width;
      const r1 = r0 + width;
      const r2 = r1 + width;
      const r3 = r2 + width;
      for (let s = 0; s < count; s += 2) {
        const to = spans[s + 1];
        for (let at = spans[s]; at < to; at++)
          row[at] =
            v0 * covariance[r0 + at] +
            v1 * covariance[r1 + at] +
            v2 * covariance[r2 + at] +
            v3 * covariance[r3 + at];
      }
      const last = ascending ? c + 1 : columns;
      for (let j = 0; j < last; j++) {
        const at = first[j];
        const u = 4 * j;
        between[j] =
          value[u] * row[at] +
          value[u + 1] * row[at + 1] +
          value[u + 2] * row[at + 2] +
          value[u + 3] * row[at + 3];
      }
    }
    const end = p === q ? i + 1 : q.n;
    const to = i * q.n;
    for (let j = 0; j < end; j++) out[to + j] += between[columnOf[j]];
  }
}

/** Of each measure that some curve is of, the first coefficient needed and the one after the last; how many numbers. */
function spansOf({ first, points }: TempoPlaced, { spans, spanOf }: typeof room): number {
  const { curveMeasure } = points;
  let count = 0;
  for (let c = 0; c < first.length; c++) {
    const from = first[c];
    const measure = curveMeasure[c];
    const s = spanOf[measure];
    if (s < 0) {
      spanOf[measure] = count;
      spans[count++] = from;
      spans[count++] = from + 4;
    } else {
      if (from < spans[s]) spans[s] = from;
      if (from + 4 > spans[s + 1]) spans[s + 1] = from + 4;
    }
  }
  for (let c = 0; c < first.length; c++) spanOf[curveMeasure[c]] = -1;
  return count;
}

/** What the sums above work with and do not keep. */
let room = makeRoom(0, 0);
function makeRoom(width: number, curves: number) {
  const [row, pulled] = [0, 1].map(() => new Float64Array(width));
  const [spans, spanOf] = [0, 1].map(() => new Int32Array(2 * width).fill(-1));
  return { row, pulled, spans, spanOf, curve: new Float64Array(curves) };
}
function roomFor(width: number, curves: number): typeof room {
  if (room.row.length !== width || room.curve.length < curves) room = makeRoom(width, 2 * curves);
  return room;
}
