import { denseForward } from '../statistics/dense-cholesky.js';
import type { ChildPrior } from './child-prior.js';
import { type Points, points } from './points.js';
import type { World } from './worlds.js';

/** A world's Gaussian prediction of noise-free sizes at some points, model scale. */
export interface Outlook {
  readonly mean: Float64Array;
  /** Variances only (length n), or the full n x n matrix row-major. */
  readonly covariance: Float64Array;
}

type Row = { readonly measure: number; readonly side: number; readonly x: number };

/** Conditional mean and covariance: m* + K V^-1 (y - m), K* - K V^-1 K'. */
export function outlook(w: World, rows: readonly Row[] | Points, prior: ChildPrior, full: boolean): Outlook {
  const at = 'n' in rows ? rows : points(rows);
  const q = at.n;
  const { placed, member } = w;
  const n = placed.n;
  const there = member.place(at, prior, w.at);
  // Cross-covariance, readings x points, so that the forward solve runs along rows.
  const cross = new Float64Array(n * q);
  member.covariance(placed, there, member.fixedCovariance(placed.points, at, prior), prior, cross);
  const mean = Float64Array.from(there.mean);
  for (let i = 0; i < n; i++) {
    const a = w.alpha[i];
    for (let j = 0; j < q; j++) mean[j] += a * cross[i * q + j];
  }
  denseForward(w.factor, n, cross, q);
  if (full) {
    const covariance = new Float64Array(q * q);
    member.covariance(there, there, member.fixedCovariance(at, at, prior), prior, covariance);
    for (let k = 0; k < n; k++)
      for (let i = 0; i < q; i++) {
        const c = cross[k * q + i];
        for (let j = 0; j < q; j++) covariance[i * q + j] -= c * cross[k * q + j];
      }
    return { mean, covariance };
  }
  const covariance = new Float64Array(q);
  for (let j = 0; j < q; j++) {
    covariance[j] = selfVariance(w, there, at, prior, j);
    for (let i = 0; i < n; i++) covariance[j] -= cross[i * q + j] ** 2;
    covariance[j] = Math.max(covariance[j], 1e-12);
  }
  return { mean, covariance };
}

function selfVariance(
  w: World,
  there: ReturnType<World['member']['place']>,
  at: Points,
  prior: ChildPrior,
  j: number,
) {
  const one: Points = {
    n: 1,
    measure: at.measure.subarray(j, j + 1),
    side: at.side.subarray(j, j + 1),
    x: at.x.subarray(j, j + 1),
  };
  const placed = w.member.place(one, prior, w.at);
  const out = new Float64Array(1);
  w.member.covariance(placed, placed, w.member.fixedCovariance(one, one, prior), prior, out);
  void there;
  return out[0];
}
