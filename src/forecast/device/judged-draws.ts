import { isoDate } from '../../records/dates.js';
import type { DeviceEvent } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import type { DimensionLimit } from '../../rules/dimension-limits.js';
import { evenNormals } from '../../statistics/even-normals.js';
import type { Futures } from '../futures.js';
import { deviationChance, deviationScale, drawDeviation } from './deviation.js';
import { type Judgement, lineJudged } from './judgements.js';
import { type OwnDeviation, ownDeviation } from './own-limit.js';
import { sizesOn } from './sizes-on.js';

export interface JudgedDraws {
  /** Per limit and draw: how far this device's real limit lies from the stated one, mm. */
  readonly deviations: readonly Float64Array[];
  /** Per limit: what it was drawn from. */
  readonly own: readonly OwnDeviation[];
  /** Per draw: uniform, for which of the days it may be outgrown on is taken for its own. */
  readonly luck: Float64Array;
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
  const chance = chanceSoFar(limits, low, high, draws);
  const n = limits.length;
  let line = 2 * n;
  const surprise: { event: DeviceEvent; likelihood: number }[] = [];
  for (const judgement of judgements) {
    if (judgement.limits.length === 0) continue;
    const before = judgement.verdict ? chance.mean() : 1;
    const doubts = judgement.limits.map((_, k) => even.line(line + k).normals);
    bound(judgement, futures, limits, castIndex, low, high, doubts);
    chance.changed(judgement.limits);
    line += judgement.limits.length;
    if (judgement.verdict)
      surprise.push({ event: judgement.verdict, likelihood: chance.mean() / Math.max(before, 1e-300) });
  }
  const deviations = limits.map(({ toleranceMm }, d) => {
    const drawn = new Float64Array(draws);
    const { uniforms: where, normals } = even.line(d);
    const { uniforms: kind } = even.line(n + d);
    for (let i = 0; i < draws; i++) {
      const from = low[d][i];
      const to = high[d][i];
      const which = kind[i];
      // Without bounds the uniform's normal, which is at hand, is the answer.
      drawn[i] =
        from === Number.NEGATIVE_INFINITY && to === Number.POSITIVE_INFINITY
          ? deviationScale(toleranceMm, which) * normals[i]
          : drawDeviation(toleranceMm, from, to, which, where[i]);
    }
    return drawn;
  });
  return {
    deviations,
    own: limits.map(({ toleranceMm }, d) => ownDeviation(toleranceMm, low[d], high[d])),
    luck: even.line(line).uniforms,
    surprise,
  };
}

/** Narrows what a judgement leaves of the limits it speaks of; of two that exclude each other the later holds. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one draw after another, what each limit has left narrowed in place
function bound(
  { day, said, limits: judged, verdict }: Judgement,
  futures: Futures,
  limits: readonly DimensionLimit[],
  castIndex: number,
  low: readonly Float64Array[],
  high: readonly Float64Array[],
  doubts: readonly Float64Array[],
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
  const tightWithin = judged.map((d) => limits[d].dimension.tightWithinMm.value);
  const toleranceOf = judged.map((d) => limits[d].dimension.toleranceMm.value);
  const share = verdict?.measure === null ? WHOLE_SHARE : 1;
  for (let i = 0; i < draws; i++) {
    const scarce = said === 'tight' || said === 'none' ? scarcest(need, toleranceOf, i) : -1;
    for (let k = 0; k < judged.length; k++) {
      const d = judged[k];
      // A reviewer's eye is as sure as the family's figure is.
      const seen = Math.max(0, tightWithin[k] + toleranceOf[k] * doubts[k][i]);
      const enough = share * leastRoom(said, seen, tightWithin[k]);
      low[d][i] = Math.max(low[d][i], need[k][i] + enough);
      if (high[d][i] <= low[d][i]) high[d][i] = Number.POSITIVE_INFINITY;
      if (k !== scarce) continue;
      high[d][i] = Math.min(high[d][i], need[k][i] + (said === 'tight' ? Math.max(0.5, seen) : 0));
      if (low[d][i] >= high[d][i]) low[d][i] = Number.NEGATIVE_INFINITY;
    }
  }
}

/**
 * 'Good' of a whole device is said of skin, alignment and closing as well, often with no toe looked at: of the room that
 * the same word promises where it names a limit it is taken for half (common practice, no source).
 */
const WHOLE_SHARE = 0.5;

/** The least room that a word says there is, mm, for a reviewer who calls less than `seen` tight. */
function leastRoom(said: Judgement['said'], seen: number, tightWithinMm: number): number {
  if (said === 'good') return seen;
  if (said === 'loose') return seen + tightWithinMm;
  return said === 'room' ? 0 : Number.NEGATIVE_INFINITY;
}

/** Which of the judged limits a word on the whole device is about: the one with the least room. */
function scarcest(need: readonly Float64Array[], toleranceMm: readonly number[], draw: number): number {
  let worst = 0;
  const short = (k: number) => need[k][draw] / toleranceMm[k];
  for (let k = 1; k < need.length; k++) if (short(k) > short(worst)) worst = k;
  return worst;
}

/** A mean chance is told well enough from about so many draws. */
const MEAN_DRAWS = 128;

/** Chance of all that was judged so far, over the draws; only limits whose bounds have changed are worked out anew. */
function chanceSoFar(
  limits: readonly DimensionLimit[],
  low: readonly Float64Array[],
  high: readonly Float64Array[],
  draws: number,
) {
  const chances = limits.map(() => new Float64Array(draws).fill(1));
  // An odd step, so that both draws of a pair are met in turn.
  const step = 2 * Math.floor(draws / (2 * MEAN_DRAWS)) + 1;
  const stale = new Set<number>();
  return {
    changed(which: readonly number[]) {
      for (const d of which) stale.add(d);
    },
    mean(): number {
      for (const d of stale)
        for (let i = 0; i < draws; i += step)
          chances[d][i] = deviationChance(limits[d].toleranceMm, low[d][i], high[d][i]);
      stale.clear();
      let sum = 0;
      for (let i = 0; i < draws; i += step) {
        let product = 1;
        for (let d = 0; d < chances.length; d++) product *= chances[d][i];
        sum += product;
      }
      return sum / Math.ceil(draws / step);
    },
  };
}
