import { isoDate } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import type { DimensionLimit } from '../../rules/dimension-limits.js';
import { randomStream } from '../../statistics/random-stream.js';
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
  const doubt = randomStream(seed ^ 0x5bd1e995);
  const chance = limits.map(() => new Float64Array(draws).fill(1));
  const surprise: { event: DeviceEvent; likelihood: number }[] = [];
  for (const judgement of judgements) {
    if (judgement.limits.length === 0) continue;
    const before = mean(chance, draws);
    bound(judgement, futures, limits, castIndex, low, high, doubt.normal);
    for (const d of judgement.limits)
      for (let i = 0; i < draws; i++)
        chance[d][i] = deviationChance(limits[d].toleranceMm, low[d][i], high[d][i]);
    if (judgement.verdict)
      surprise.push({ event: judgement.verdict, likelihood: mean(chance, draws) / Math.max(before, 1e-300) });
  }
  const dice = randomStream(seed);
  const deviations = limits.map(({ toleranceMm }, d) => {
    const which = evenly(dice.uniform(), 2 * d);
    const where = evenly(dice.uniform(), 2 * d + 1);
    return Float64Array.from({ length: draws }, (_, i) =>
      drawDeviation(toleranceMm, low[d][i], high[d][i], which(i), where(i)),
    );
  });
  return { deviations, surprise };
}

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89];
/**
 * Numbers on (0, 1) that fill it evenly over any run of draws, from a random start; square roots of different primes
 * keep one line's from following another's (Richtmyer 1951).
 */
function evenly(start: number, line: number): (draw: number) => number {
  const step = Math.sqrt(PRIMES[line % PRIMES.length]);
  return (draw) => (start + (draw + 1) * step) % 1 || Number.MIN_VALUE;
}

/** Narrows what a judgement leaves of the limits it speaks of; of two that exclude each other the later holds. */
function bound(
  { day, said, limits: judged }: Judgement,
  futures: Futures,
  limits: readonly DimensionLimit[],
  castIndex: number,
  low: readonly Float64Array[],
  high: readonly Float64Array[],
  doubt: () => number,
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
      const seen = Math.max(0, tightWithinMm.value + toleranceMm.value * doubt());
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

function mean(chance: readonly Float64Array[], draws: number): number {
  let sum = 0;
  for (let i = 0; i < draws; i++) sum += chance.reduce((product, c) => product * c[i], 1);
  return sum / draws;
}
