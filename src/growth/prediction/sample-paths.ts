import type { DayNumber } from '../../records/dates.js';
import { measures } from '../../records/measure.js';
import type { ChildPrior } from '../child/child-prior.js';
import type { World } from '../child/worlds.js';
import { isLogMeasure } from '../population/growth-scale.js';
import { type PathSeries, pathPlan } from './path-plan.js';

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
  const { knots, groups, place, chance } = pathPlan(worlds, series, days, draws, seed, prior);
  const { order, before, fraction } = knots;
  const nk = knots.at.length;
  const q = nk * series.length;
  const out = series.map(() => new Float64Array(draws * nd));
  const kinds = series.map((s) => ({ skeletal: measures[s.id].skeletal, log: isLogMeasure(s.id) }));
  const normal = new Float64Array(q);
  const bend = new Float64Array(q);
  let drawn = 0;
  for (const { count, mean, factor, expected } of groups)
    for (let c = 0; c < count; c++) {
      const row = place[drawn++];
      for (let i = 0; i < q; i++) normal[i] = chance.normal();
      for (let i = 0; i < q; i++) {
        let sum = mean[i];
        for (let k = 0; k <= i; k++) sum += factor[i * q + k] * normal[k];
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
  return out;
}
