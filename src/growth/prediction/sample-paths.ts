import { measures } from '../../records/measure.js';
import { isLogMeasure } from '../population/growth-scale.js';
import type { PathPlan, PathSeries } from './path-plan.js';

/**
 * The planned draws, given the products of the plan's parts in order: each draw's mean course and what it strays from
 * it, back from the model's scale, bones never shrinking.
 * See ChildPosterior.sample; days in the order they were asked for.
 */
export function pathsOf(
  { knots, parts }: PathPlan,
  series: readonly PathSeries[],
  draws: number,
  deviations: readonly ArrayLike<number>[],
): Float64Array[] {
  const { order } = knots;
  const nd = order.length;
  const width = nd * series.length;
  const inOrder = order.every((j, rank) => j === rank);
  return series.map(({ id }, s) => {
    const skeletal = measures[id].skeletal;
    const log = isLogMeasure(id);
    const out = new Float64Array(draws * nd);
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the dear loop over measures, parts, draws and days, written out for speed
    parts.forEach(({ from: first, component, courses }, p) => {
      const deviation = deviations[p];
      for (let d = 0; d < 2 * component.length && 2 * first + d < draws; d++) {
        const pair = d >> 1;
        const course = courses[component[pair]];
        const to = (2 * first + d) * nd;
        const from = pair * width + s * nd;
        const sign = d & 1 ? -1 : 1;
        let highest = Number.NEGATIVE_INFINITY;
        for (let j = 0; j < nd; j++) {
          const scaled = course[s * nd + j] + sign * deviation[from + j];
          const size = log ? Math.exp(scaled) : scaled;
          if (size > highest) highest = size;
          out[to + (inOrder ? j : order[j])] = skeletal ? highest : size;
        }
      }
    });
    return out;
  });
}
