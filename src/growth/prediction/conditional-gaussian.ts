import { denseForward } from '../../statistics/dense-cholesky.js';
import { type Component, type ConditionedPart, logLikelihood } from '../child/components.js';
import type { Parts } from '../child/parts.js';
import { type Points, points, type SideCode } from '../population/points.js';
import type { ChildPrior, Placed, Submodel } from '../population/submodel.js';

/** Noise-free sizes at some points of one part of the readings (`partsOf`), as one component after another sees them. */
export interface ConditionalGaussian {
  /** m*, model scale; written over by the next call. */
  expected(w: Component): Float64Array;
  /** K V^-1 (y - m), what the readings add to it, added to `out`. */
  pull(w: Component, out: Float64Array): Float64Array;
  /** Both together; written over by the next call. */
  mean(w: Component): Float64Array;
  /** K* - K V^-1 K', n x n row-major, lower triangle. */
  covariance(w: Component): Float64Array;
}

export type Row = { readonly measure: number; readonly side: SideCode; readonly x: number };

/** What no grid point changes is worked out once a submodel. */
export function conditionalGaussian(
  { data }: Parts,
  part: number,
  rows: readonly Row[],
  prior: ChildPrior,
): ConditionalGaussian {
  const seen = data[part];
  const at = points(rows);
  const q = at.n;
  const crossOf = new Map<Submodel, Float64Array>();
  const seenOf = new Map<Submodel, Float64Array>();
  const selfOf = new Map<Submodel, Float64Array>();
  const placedOf = new Map<Submodel, Placed>();
  const fixed = (of: typeof crossOf, { submodel }: Component, from: Points) => {
    const known = of.get(submodel) ?? submodel.fixedCovariance(from, at, prior);
    of.set(submodel, known);
    return known;
  };
  const place = ({ submodel, at: grid }: Component) => {
    const there = submodel.place(at, prior, grid, placedOf.get(submodel));
    placedOf.set(submodel, there);
    return there;
  };
  const pulled = (w: Component, there: Placed, out: Float64Array) => {
    const { placed, alpha } = w.parts[part];
    w.submodel.pull(placed, alpha, there, fixed(crossOf, w, placed.points), out);
    return out;
  };
  const factored = (w: Component) => {
    const { placed } = w.parts[part];
    const factor = new Float64Array(placed.n * placed.n);
    const own = seenOf.get(w.submodel) ?? w.submodel.fixedCovariance(seen.at, seen.at, prior);
    seenOf.set(w.submodel, own);
    logLikelihood(w.submodel, placed, seen, own, prior, factor, new Float64Array(placed.n));
    factors.set(w.parts[part], factor);
    return factor;
  };
  return {
    expected: (w) => place(w).mean,
    pull: (w, out) => pulled(w, place(w), out),
    mean(w) {
      const there = place(w);
      return pulled(w, there, there.mean);
    },
    covariance(w) {
      const there = place(w);
      const { placed } = w.parts[part];
      const factor = factors.get(w.parts[part]) ?? factored(w);
      const cross = new Float64Array(placed.n * q);
      w.submodel.covariance(placed, there, fixed(crossOf, w, placed.points), prior, cross);
      denseForward(factor, placed.n, cross, q);
      const out = new Float64Array(q * q);
      w.submodel.covariance(there, there, fixed(selfOf, w, at), prior, out);
      takeAway(out, cross, q, placed.n);
      return out;
    },
  };
}

/** Factors of the readings' covariance in the components asked about: several questions are put to one child. */
const factors = new WeakMap<ConditionedPart, Float64Array>();

/** Takes C'C off the lower triangle of a q x q matrix; C is n x q. */
function takeAway(from: Float64Array, c: Float64Array, q: number, n: number): void {
  let k = 0;
  for (; k + 3 < n; k += 4) {
    const [r0, r1, r2, r3] = [k * q, (k + 1) * q, (k + 2) * q, (k + 3) * q];
    for (let i = 0; i < q; i++) {
      const c0 = c[r0 + i];
      const c1 = c[r1 + i];
      const c2 = c[r2 + i];
      const c3 = c[r3 + i];
      const to = i * q;
      for (let j = 0; j <= i; j++)
        from[to + j] -= c0 * c[r0 + j] + c1 * c[r1 + j] + c2 * c[r2 + j] + c3 * c[r3 + j];
    }
  }
  for (; k < n; k++)
    for (let i = 0; i < q; i++) {
      const v = c[k * q + i];
      for (let j = 0; j <= i; j++) from[i * q + j] -= v * c[k * q + j];
    }
  // Rounding must not leave a point without spread.
  for (let i = 0; i < q; i++) from[i * q + i] = Math.max(from[i * q + i], 1e-10);
}
