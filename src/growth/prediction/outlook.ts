import { denseForward } from '../../statistics/dense-cholesky.js';
import type { ChildPrior } from '../child/child-prior.js';
import type { Member } from '../child/member.js';
import { type Points, points } from '../child/points.js';
import type { World } from '../child/worlds.js';

/** A world's Gaussian prediction of noise-free sizes at some points, model scale. */
export interface Outlook {
  /** What the world expects without the child's readings' residuals. */
  readonly expected: Float64Array;
  readonly mean: Float64Array;
  /** n x n row-major, lower triangle. */
  readonly covariance: Float64Array;
}

type Row = { readonly measure: number; readonly side: number; readonly x: number };

/** Looks at the same points from one world after another; what no grid point changes is worked out once. */
export function outlooks(rows: readonly Row[], prior: ChildPrior): (w: World) => Outlook {
  const at = points(rows);
  const fixed = new Map<Member, { cross: Float64Array; self: Float64Array; seen: Points }>();
  return (w) => {
    let known = fixed.get(w.member);
    if (known?.seen !== w.placed.points) {
      known = {
        seen: w.placed.points,
        cross: w.member.fixedCovariance(w.placed.points, at, prior),
        self: w.member.fixedCovariance(at, at, prior),
      };
      fixed.set(w.member, known);
    }
    return outlook(w, at, known, prior);
  };
}

/** Conditional mean and covariance: m* + K V^-1 (y - m), K* - K V^-1 K'. */
function outlook(
  w: World,
  at: Points,
  fixed: { cross: Float64Array; self: Float64Array },
  prior: ChildPrior,
): Outlook {
  const q = at.n;
  const n = w.placed.n;
  const there = w.member.place(at, prior, w.at);
  // Cross-covariance, readings x points, so that the forward solve runs along rows.
  const cross = new Float64Array(n * q);
  w.member.covariance(w.placed, there, fixed.cross, prior, cross);
  const mean = Float64Array.from(there.mean);
  for (let i = 0; i < n; i++) {
    const a = w.alpha[i];
    for (let j = 0; j < q; j++) mean[j] += a * cross[i * q + j];
  }
  denseForward(w.factor, n, cross, q);
  const covariance = new Float64Array(q * q);
  w.member.covariance(there, there, fixed.self, prior, covariance);
  for (let k = 0; k < n; k++)
    for (let i = 0; i < q; i++) {
      const c = cross[k * q + i];
      for (let j = 0; j <= i; j++) covariance[i * q + j] -= c * cross[k * q + j];
    }
  // Rounding must not leave a point without spread.
  for (let i = 0; i < q; i++) covariance[i * q + i] = Math.max(covariance[i * q + i], 1e-10);
  return { expected: there.mean, mean, covariance };
}
