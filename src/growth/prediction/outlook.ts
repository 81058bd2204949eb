import { denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';
import type { Parts } from '../child/parts.js';
import type { Component } from '../child/trial.js';
import { type Data, readingsCovariance } from '../child/trial.js';
import { type Points, points, type SideCode } from '../population/points.js';
import type { ChildPrior, Placed, Submodel } from '../population/submodel.js';

/** Noise-free sizes at some points of one part of the readings (`partsOf`), as one component after another sees them. */
export interface Outlook {
  /** m* + K V^-1 (y - m), model scale; written over by the next call. */
  mean(w: Component): Float64Array;
  /** K* - K V^-1 K', n x n row-major, lower triangle. */
  covariance(w: Component): Float64Array;
}

export type Row = { readonly measure: number; readonly side: SideCode; readonly x: number };

/** What no grid point changes is worked out once a submodel. */
export function outlookOf({ data }: Parts, part: number, rows: readonly Row[], prior: ChildPrior): Outlook {
  const seen = data[part];
  const at = points(rows);
  const q = at.n;
  const crossOf = new Map<Submodel, Float64Array>();
  const placedOf = new Map<Submodel, Placed>();
  const cross = ({ trial: { submodel } }: Component, from: Points) => {
    const known = crossOf.get(submodel) ?? submodel.fixedCovariance(from, at, prior);
    crossOf.set(submodel, known);
    return known;
  };
  const place = ({ trial: { submodel }, at: grid }: Component) => {
    const there = submodel.place(at, prior, grid, placedOf.get(submodel));
    placedOf.set(submodel, there);
    return there;
  };
  return {
    mean(w) {
      const there = place(w);
      const { placed, alpha } = w.parts[part];
      const { mean } = there;
      const fixed = cross(w, placed.points);
      for (let i = 0; i < placed.n; i++) {
        const pull = alpha[i];
        const row = i * q;
        for (let j = 0; j < q; j++) mean[j] += pull * fixed[row + j];
      }
      w.trial.submodel.pullVarying(placed, alpha, there, mean);
      return mean;
    },
    covariance(w) {
      const { trial } = w;
      const { submodel } = trial;
      const there = place(w);
      const { placed } = w.parts[part];
      const between = Float64Array.from(cross(w, placed.points));
      submodel.addVarying(placed, there, between);
      denseForward(factorOf(w, part, seen), placed.n, between, q);
      const out = submodel.fixedCovariance(at, at, prior);
      submodel.addVarying(there, there, out);
      takeAway(out, between, q, placed.n);
      return out;
    },
  };
}

/** Of the readings' covariance, errors as doubt has left them. */
function factorOf({ trial, parts }: Component, part: number, { variance }: Data): Float64Array {
  if (part > 0) return trial.differenceFactors[part - 1];
  const { placed } = parts[0];
  const { n } = placed;
  if (factor.length < n * n) factor = new Float64Array(2 * n * n);
  readingsCovariance(trial, placed, factor);
  for (let i = 0; i < n; i++) factor[i * n + i] += variance[i];
  denseCholesky(factor, n);
  return factor;
}
let factor = new Float64Array(4096);

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
