import { isoDate } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import type { DimensionLimit } from '../../rules/dimension-limits.js';
import { evenNormals } from '../../statistics/even-normals.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';
import type { Futures } from '../futures.js';
import { deviationChance, drawDeviation } from './deviation.js';
import { type Judgement, lineJudged } from './judgements.js';
import { sizesOn } from './sizes-on.js';

export interface JudgedDraws {
  /** Per limit and draw: how far this device's real limit lies from the stated one, mm. */
  readonly deviations: readonly Float64Array[];
  /** Per verdict: its likelihood averaged over what was believed before it; small when growth and verdict disagree. */
  readonly surprise: readonly { readonly event: DeviceEvent; readonly likelihood: number }[];
}

/**
 * What people judged, as evidence on this device's own limit. A person saw the device on the leg, which the family's
 * default did not, so the judgement holds in every future: each draw's limit is drawn from what the judgement leaves of
 * it. How the child grew is left to the readings.
 */
export function judgedDraws(
  futures: Futures,
  limits: readonly DimensionLimit[],
  judgements: readonly Judgement[],
  castIndex: number,
  seed: number,
): JudgedDraws {
  const { draws } = futures;
  const low = limits.map(() => new Float64Array(draws).fill(Number.NEGATIVE_INFINITY));
  const high = limits.map(() => new Float64Array(draws).fill(Number.POSITIVE_INFINITY));
  const even = evenNormals(Math.ceil(draws / 2), seed);
  const uniform = (i: number, line: number) =>
    i & 1 ? 1 - even.uniform(i >> 1, line) : even.uniform(i >> 1, line);
  const n = limits.length;
  let line = 2 * n;
  const surprise: { event: DeviceEvent; likelihood: number }[] = [];
  for (const judgement of judgements) {
    if (judgement.limits.length === 0) continue;
    const before = judgement.verdict ? meanChance(limits, low, high, draws) : 1;
    const first = line;
    bound(judgement, futures, limits, castIndex, low, high, (i, k) => normalQuantile(uniform(i, first + k)));
    line += judgement.limits.length;
    if (judgement.verdict)
      surprise.push({
        event: judgement.verdict,
        likelihood: meanChance(limits, low, high, draws) / Math.max(before, 1e-300),
      });
  }
  const deviations = limits.map(({ toleranceMm }, d) =>
    Float64Array.from({ length: draws }, (_, i) =>
      drawDeviation(toleranceMm, low[d][i], high[d][i], uniform(i, n + d), uniform(i, d)),
    ),
  );
  return { deviations, surprise };
}

/** Narrows what a judgement leaves of the limits it speaks of; of two that exclude each other the later holds. */
function bound(
  { day, said, limits: judged }: Judgement,
  futures: Futures,
  limits: readonly DimensionLimit[],
  castIndex: number,
  low: readonly Float64Array[],
  high: readonly Float64Array[],
  doubt: (draw: number, limit: number) => number,
): void {
  const { draws } = futures;
  const width = futures.days.length;
  // Room = deviation - need: how much the limit must exceed the stated one for room on that day.
  const need = judged.map((d) => {
    const limit = limits[d];
    const path = futures.paths.get(seriesKey(limit.series))!;
    const used = sizesOn(futures, path, day);
    const line = lineJudged(limit, isoDate(day), said);
    for (let i = 0; i < draws; i++)
      used[i] -= line + (limit.kind === 'growth' ? path[i * width + castIndex] : 0);
    return used;
  });
  for (let i = 0; i < draws; i++) {
    const scarce = said === 'tight' || said === 'none' ? scarcest(need, judged, limits, i) : -1;
    judged.forEach((d, k) => {
      const { tightWithinMm, toleranceMm } = limits[d].dimension;
      // A reviewer's eye is as sure as the family's figure is.
      const seen = Math.max(0, tightWithinMm.value + toleranceMm.value * doubt(i, k));
      const enough = { room: 0, good: seen, loose: seen + tightWithinMm.value, tight: 0, none: -Infinity }[
        said
      ];
      low[d][i] = Math.max(low[d][i], need[k][i] + enough);
      if (high[d][i] <= low[d][i]) high[d][i] = Number.POSITIVE_INFINITY;
      if (k !== scarce) return;
      high[d][i] = Math.min(high[d][i], need[k][i] + (said === 'tight' ? Math.max(0.5, seen) : 0));
      if (low[d][i] >= high[d][i]) low[d][i] = said === 'tight' ? need[k][i] : Number.NEGATIVE_INFINITY;
    });
  }
}

/** Which of the judged limits a word on the whole device is about: the one with the least room. */
function scarcest(
  need: readonly Float64Array[],
  judged: readonly number[],
  limits: readonly DimensionLimit[],
  draw: number,
): number {
  let worst = 0;
  const short = (k: number) => need[k][draw] / limits[judged[k]].dimension.toleranceMm.value;
  for (let k = 1; k < need.length; k++) if (short(k) > short(worst)) worst = k;
  return worst;
}

/** Chance of all that was judged so far, over the draws. */
function meanChance(
  limits: readonly DimensionLimit[],
  low: readonly Float64Array[],
  high: readonly Float64Array[],
  draws: number,
): number {
  let sum = 0;
  for (let i = 0; i < draws; i++)
    sum += limits.reduce(
      (product, { toleranceMm }, d) => product * deviationChance(toleranceMm, low[d][i], high[d][i]),
      1,
    );
  return sum / draws;
}
