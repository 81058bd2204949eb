import {
  denseBackward,
  denseCholesky,
  denseForward,
  denseLogDeterminant,
} from '../../statistics/dense-cholesky.js';
import type { ChildPrior } from './child-prior.js';
import type { GridPoint, Member, Placed } from './member.js';
import { points } from './points.js';
import type { Reading } from './readings.js';

/** A sex, a member and a grid point, conditioned on the child's readings. */
export interface World {
  readonly sex: 'male' | 'female';
  readonly member: Member;
  readonly at: GridPoint;
  readonly placed: Placed;
  /** Factor of the readings' covariance, n x n row-major, lower triangle. */
  readonly factor: Float64Array;
  /** V^-1 (y - mean). */
  readonly alpha: Float64Array;
  /** Log of everything in the weight but exp(-(z'z + ln det V) / 2): prior, markers, the member's share. */
  readonly logPrior: number;
  /** Posterior weight; all worlds' weights add up to one. */
  readonly weight: number;
}

/** A sex and a member to look at, with the grid points to try. */
export interface Candidate {
  readonly sex: 'male' | 'female';
  readonly member: Member;
  readonly grid: readonly GridPoint[];
}

/** Worlds lighter than this share of the heaviest are left out. */
const NEGLIGIBLE = 1e-4;

/**
 * Conditions every candidate world on the readings. Within a member (over sexes and grid points) worlds are
 * weighed by prior x likelihood x `evidence`; between members by the members' own weights at the last age.
 */
export function worlds(
  candidates: readonly Candidate[],
  seen: readonly Reading[],
  prior: ChildPrior,
  variance: Float64Array,
  evidence: (member: Member, at: GridPoint) => number,
): World[] {
  const at = points(seen);
  const n = at.n;
  const values = Float64Array.from(seen, (r) => r.value);
  const lastX = n ? at.x[n - 1] : Math.log(5.75);
  const byMember = new Map<string, (World & { log: number; share: number })[]>();
  for (const { sex, member, grid } of candidates) {
    const share = member.logWeight(lastX);
    if (share < Math.log(NEGLIGIBLE)) continue;
    const fixed = member.fixedCovariance(at, at, prior);
    const list = byMember.get(member.name) ?? [];
    byMember.set(member.name, list);
    for (const g of grid) {
      const placed = member.place(at, prior, g);
      const factor = new Float64Array(n * n);
      member.covariance(placed, placed, fixed, prior, factor);
      for (let i = 0; i < n; i++) factor[i * n + i] += variance[i];
      if (!denseCholesky(factor, n)) continue;
      const alpha = values.map((v, i) => v - placed.mean[i]);
      denseForward(factor, n, alpha);
      let square = 0;
      for (let i = 0; i < n; i++) square += alpha[i] * alpha[i];
      const logPrior = g.logPrior + evidence(member, g);
      const log = logPrior - 0.5 * (square + denseLogDeterminant(factor, n));
      denseBackward(factor, n, alpha);
      list.push({
        sex,
        member,
        at: g,
        placed,
        factor,
        alpha,
        logPrior,
        weight: 0,
        log,
        share,
      });
    }
  }
  const all: World[] = [];
  const shares = [...byMember.values()].filter((l) => l.length).map((l) => Math.exp(l[0].share));
  const total = shares.reduce((a, b) => a + b, 0);
  let k = 0;
  for (const list of byMember.values()) {
    if (!list.length) continue;
    const share = shares[k++] / total;
    const top = Math.max(...list.map((w) => w.log));
    const kept = list.filter((w) => w.log > top + Math.log(NEGLIGIBLE));
    const sum = kept.reduce((s, w) => s + Math.exp(w.log - top), 0);
    const scale = Math.log(share) - top - Math.log(sum);
    for (const { log, share: _, ...w } of kept)
      all.push({ ...w, logPrior: w.logPrior + scale, weight: Math.exp(log + scale) });
  }
  return all;
}
