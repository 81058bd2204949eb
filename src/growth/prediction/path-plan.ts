import type { DayNumber } from '../../records/dates.js';
import type { MeasureId } from '../../records/measure.js';
import { denseCholesky } from '../../statistics/dense-cholesky.js';
import { type RandomStream, randomStream } from '../../statistics/random-stream.js';
import type { ChildPrior } from '../child/child-prior.js';
import { points } from '../child/points.js';
import type { World } from '../child/worlds.js';
import { outlooks } from './outlook.js';
import { type PathKnots, pathKnots } from './path-knots.js';

/** Draws share a world in groups of about this many, taken evenly through the sorted worlds. */
const GROUPS = 48;

export interface PathSeries {
  readonly id: MeasureId;
  readonly rows: readonly { measure: number; side: number; x: number }[];
}

/** Draws of one world: bend = mean + factor z at the knots, added to the expected curve. Model scale. */
export interface PathGroup {
  readonly count: number;
  /** Deviation from the expected curve, series x knots. */
  readonly mean: Float64Array;
  /** (series x knots) squared, row-major, lower triangle. */
  readonly factor: Float64Array;
  /** Series x days in time order. */
  readonly expected: Float64Array;
}

/** Everything that joint draws are made of, worked out in float64; who multiplies it out is another matter. */
export interface PathPlan {
  readonly knots: PathKnots;
  readonly groups: readonly PathGroup[];
  /** Row of the result each draw goes to, so that any run of rows is a fair sample of the worlds. */
  readonly place: Int32Array;
  /** Where the normals come from: group by group, draw by draw, series x knots each. */
  readonly chance: RandomStream;
}

export function pathPlan(
  worlds: readonly World[],
  series: readonly PathSeries[],
  days: readonly DayNumber[],
  draws: number,
  seed: number,
  prior: ChildPrior,
): PathPlan {
  const knots = pathKnots(days, series[0]?.rows.map((r) => r.x) ?? []);
  const chance = randomStream(seed);
  const view = outlooks(
    series.flatMap((s) => knots.at.map((j) => s.rows[j])),
    prior,
  );
  const dayPoints = points(series.flatMap((s) => knots.order.map((j) => s.rows[j])));
  const q = knots.at.length * series.length;
  const place = shuffled(draws, chance.uniform);
  const groups = allot(worlds, draws, chance.uniform()).map(({ world, count }): PathGroup => {
    const { mean, expected, covariance } = view(world);
    for (let i = 0; i < q; i++) covariance[i * q + i] += 1e-9 + 1e-6 * covariance[i * q + i];
    if (!denseCholesky(covariance, q)) throw new Error('a prediction covariance is not positive definite');
    return {
      count,
      mean: mean.map((m, i) => m - expected[i]),
      factor: covariance,
      expected: world.member.place(dayPoints, prior, world.at).mean,
    };
  });
  return { knots, groups, place, chance };
}

/** Splits draws over worlds in proportion to weight by systematic sampling, at most `GROUPS` different worlds. */
function allot(worlds: readonly World[], draws: number, offset: number): { world: World; count: number }[] {
  const groups = Math.min(GROUPS, draws);
  const counts = new Map<World, number>();
  let at = 0;
  let sum = worlds[0].weight;
  for (let g = 0; g < groups; g++) {
    while (sum < (g + offset) / groups && at < worlds.length - 1) sum += worlds[++at].weight;
    const size = Math.floor(((g + 1) * draws) / groups) - Math.floor((g * draws) / groups);
    counts.set(worlds[at], (counts.get(worlds[at]) ?? 0) + size);
  }
  return [...counts].map(([world, count]) => ({ world, count }));
}

/** 0..n-1 in random order (Fisher-Yates). */
function shuffled(n: number, uniform: () => number): Int32Array {
  const a = Int32Array.from({ length: n }, (_, i) => i);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1));
    [a[i], a[j]] = [a[j], a[i]];
  }
  return a;
}
