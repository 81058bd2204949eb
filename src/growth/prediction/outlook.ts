import { denseForward } from '../../statistics/dense-cholesky.js';
import type { Component } from '../child/components.js';
import { type Points, points } from '../population/points.js';
import type { ChildPrior, Placed, Submodel } from '../population/submodel.js';

/** A component's Gaussian prediction of noise-free sizes at some points, model scale. */
export interface Outlook {
  /** What the component expects without the child's readings' residuals. */
  readonly expected: Float64Array;
  /** m* + K V^-1 (y - m). */
  readonly mean: Float64Array;
  readonly there: Placed;
  /** R^-1 K', readings x points: inner products of its columns are what the readings take away. */
  solved(): Float64Array;
}

export interface Outlooks {
  readonly at: Points;
  of(w: Component): Outlook;
  /** K* - K V^-1 K', n x n row-major, lower triangle. */
  covariance(w: Component, o: Outlook): Float64Array;
}

type Row = { readonly measure: number; readonly side: number; readonly x: number };

/** Looks at the same points from one component after another; what no grid point changes is worked out once. */
export function outlooks(rows: readonly Row[], prior: ChildPrior): Outlooks {
  const at = points(rows);
  const q = at.n;
  const crossOf = new Map<Submodel, { seen: Points; cross: Float64Array }>();
  const selfOf = new Map<Submodel, Float64Array>();
  return {
    at,
    of(w) {
      let known = crossOf.get(w.submodel);
      if (known?.seen !== w.placed.points) {
        known = { seen: w.placed.points, cross: w.submodel.fixedCovariance(w.placed.points, at, prior) };
        crossOf.set(w.submodel, known);
      }
      return outlook(w, at, known.cross, prior);
    },
    covariance(w, { there, solved }) {
      let self = selfOf.get(w.submodel);
      if (!self) {
        self = w.submodel.fixedCovariance(at, at, prior);
        selfOf.set(w.submodel, self);
      }
      const out = new Float64Array(q * q);
      w.submodel.covariance(there, there, self, prior, out);
      takeAway(out, solved(), q, w.placed.n);
      return out;
    },
  };
}

/** The next outlook uses it again. */
let scratch = new Float64Array(4096);

function outlook(w: Component, at: Points, fixed: Float64Array, prior: ChildPrior): Outlook {
  const q = at.n;
  const n = w.placed.n;
  const there = w.submodel.place(at, prior, w.at);
  if (scratch.length < n * q) scratch = new Float64Array(2 * n * q);
  w.submodel.covariance(w.placed, there, fixed, prior, scratch);
  const mean = Float64Array.from(there.mean);
  for (let i = 0; i < n; i++) {
    const a = w.alpha[i];
    for (let j = 0; j < q; j++) mean[j] += a * scratch[i * q + j];
  }
  // Cross-covariance, readings x points, so that the forward solve runs along rows; most outlooks are asked for means only.
  let cross: Float64Array | null = null;
  const crossed = () => {
    const own = new Float64Array(n * q);
    w.submodel.covariance(w.placed, there, fixed, prior, own);
    return own;
  };
  let isSolved = false;
  return {
    expected: there.mean,
    mean,
    there,
    solved() {
      cross ??= crossed();
      if (!isSolved) denseForward(w.factor, n, cross, q);
      isSolved = true;
      return cross;
    },
  };
}

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
