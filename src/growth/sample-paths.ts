import type { DayNumber } from '../measurements/dates.js';
import { type MeasureId, measures } from '../measurements/measure.js';
import { denseCholesky } from '../statistics/dense-cholesky.js';
import { randomStream } from '../statistics/random-stream.js';
import type { ChildPrior } from './child-prior.js';
import { isLogMeasure } from './growth-scale.js';
import { outlooks } from './outlook.js';
import { pathKnots } from './path-knots.js';
import { points } from './points.js';
import type { World } from './worlds.js';

/** Draws share a world in groups of about this many, taken evenly through the sorted worlds. */
const GROUPS = 48;
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
  const { at, order, before, fraction } = pathKnots(days, series[0]?.rows.map((r) => r.x) ?? []);
  const nk = at.length;
  const q = nk * series.length;
  const chance = randomStream(seed);
  const out = series.map(() => new Float64Array(draws * nd));
  const view = outlooks(
    series.flatMap((s) => at.map((j) => s.rows[j])),
    prior,
  );
  const dayPoints = points(series.flatMap((s) => order.map((j) => s.rows[j])));
  const kinds = series.map((s) => ({ skeletal: measures[s.id].skeletal, log: isLogMeasure(s.id) }));
  const place = shuffled(draws, chance.uniform);
  const normal = new Float64Array(q);
  const bend = new Float64Array(q);
  let drawn = 0;
  for (const { world, count } of allot(worlds, draws, chance.uniform())) {
    const o = view(world);
    const expected = world.member.place(dayPoints, prior, world.at).mean;
    for (let i = 0; i < q; i++) o.covariance[i * q + i] += 1e-9 + 1e-6 * o.covariance[i * q + i];
    if (!denseCholesky(o.covariance, q)) throw new Error('a prediction covariance is not positive definite');
    for (let c = 0; c < count; c++) {
      const row = place[drawn++];
      for (let i = 0; i < q; i++) normal[i] = chance.normal();
      for (let i = 0; i < q; i++) {
        let sum = o.mean[i] - o.expected[i];
        for (let k = 0; k <= i; k++) sum += o.covariance[i * q + k] * normal[k];
        bend[i] = sum;
      }
      for (let s = 0; s < kinds.length; s++) {
        const { skeletal, log } = kinds[s];
        const path = out[s];
        let highest = -Infinity;
        for (let j = 0; j < nd; j++) {
          const k = s * nk + before[j];
          const f = fraction[j];
          const scaled = expected[s * nd + j] + (f === 0 ? bend[k] : bend[k] * (1 - f) + bend[k + 1] * f);
          const size = log ? Math.exp(scaled) : scaled;
          if (size > highest) highest = size;
          path[row * nd + order[j]] = skeletal ? highest : size;
        }
      }
    }
  }
  return out;
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
