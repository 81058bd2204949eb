import type { DayNumber } from '../measurements/dates.js';
import { type MeasureId, measures } from '../measurements/measure.js';
import { denseCholesky } from '../statistics/dense-cholesky.js';
import { randomStream } from '../statistics/random-stream.js';
import type { ChildPrior } from './child-prior.js';
import { fromScale } from './growth-scale.js';
import { outlook } from './outlook.js';
import { points } from './points.js';
import type { World } from './worlds.js';

/** Draws share a world in groups of about this many, taken evenly through the sorted worlds. */
const GROUPS = 48;
/** Between days this close a path is drawn as a straight line about the world's expected curve. */
const KNOT_DAYS = 49;
const KNOT_LOG_AGE = 0.08;

interface PathSeries {
  readonly id: MeasureId;
  readonly rows: readonly { measure: number; side: number; x: number }[];
}

/** Joint draws of noise-free paths; see ChildPosterior.sample. Days may come in any order. */
export function samplePaths(
  worlds: readonly World[],
  series: readonly PathSeries[],
  days: readonly DayNumber[],
  draws: number,
  seed: number,
  prior: ChildPrior,
): Float64Array[] {
  const nd = days.length;
  const order = days.map((_, j) => j).sort((a, b) => days[a] - days[b]);
  const xs = series[0]?.rows.map((r) => r.x) ?? [];
  const knots = chooseKnots(order, days, xs);
  const nk = knots.length;
  const q = nk * series.length;
  const chance = randomStream(seed);
  const out = series.map(() => new Float64Array(draws * nd));
  const knotPoints = points(series.flatMap((s) => knots.map((j) => s.rows[j])));
  const dayPoints = points(series.flatMap((s) => order.map((j) => s.rows[j])));
  const before = new Int32Array(nd);
  const fraction = new Float64Array(nd);
  for (let j = 0, k = 0; j < nd; j++) {
    while (k < nk - 2 && days[knots[k + 1]] <= days[order[j]]) k++;
    before[j] = k;
    const width = nk > 1 ? days[knots[k + 1]] - days[knots[k]] : 1;
    fraction[j] = nk > 1 ? (days[order[j]] - days[knots[k]]) / width : 0;
  }
  const place = shuffled(draws, chance.uniform);
  const normal = new Float64Array(q);
  const bend = new Float64Array(q);
  let drawn = 0;
  for (const { world, count } of allot(worlds, draws, chance.uniform())) {
    const o = outlook(world, knotPoints, prior, true);
    const expectedAtKnots = world.member.place(knotPoints, prior, world.at).mean;
    const expected = world.member.place(dayPoints, prior, world.at).mean;
    for (let i = 0; i < q; i++) o.covariance[i * q + i] += 1e-9 + 1e-6 * o.covariance[i * q + i];
    if (!denseCholesky(o.covariance, q)) throw new Error('a prediction covariance is not positive definite');
    for (let c = 0; c < count; c++) {
      const row = place[drawn++];
      for (let i = 0; i < q; i++) normal[i] = chance.normal();
      for (let i = 0; i < q; i++) {
        let sum = o.mean[i] - expectedAtKnots[i];
        for (let k = 0; k <= i; k++) sum += o.covariance[i * q + k] * normal[k];
        bend[i] = sum;
      }
      series.forEach((s, at) => {
        const path = out[at];
        const skeletal = measures[s.id].skeletal;
        let highest = -Infinity;
        for (let j = 0; j < nd; j++) {
          const k = at * nk + before[j];
          const f = fraction[j];
          const b = f === 0 ? bend[k] : bend[k] * (1 - f) + bend[k + 1] * f;
          const size = fromScale(s.id, expected[at * nd + j] + b);
          highest = Math.max(highest, size);
          path[row * nd + order[j]] = skeletal ? highest : size;
        }
      });
    }
  }
  return out;
}

/** Days (indices, in time order) that paths are drawn at; the first and last are always among them. */
function chooseKnots(order: readonly number[], days: readonly DayNumber[], xs: readonly number[]): number[] {
  const knots: number[] = [];
  for (let j = 0; j < order.length; j++) {
    const last = knots.at(-1);
    const next = order[j + 1];
    const far =
      last === undefined ||
      next === undefined ||
      days[next] - days[last] > KNOT_DAYS ||
      xs[next] - xs[last] > KNOT_LOG_AGE;
    if (far && (last === undefined || days[last] !== days[order[j]])) knots.push(order[j]);
  }
  return knots;
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

/** 0..n-1 in random order (Fisher-Yates), so that any run of draws is a fair sample of the worlds. */
function shuffled(n: number, uniform: () => number): Int32Array {
  const a = Int32Array.from({ length: n }, (_, i) => i);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1));
    [a[i], a[j]] = [a[j], a[i]];
  }
  return a;
}
