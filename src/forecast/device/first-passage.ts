import type { DayNumber } from '../../records/dates.js';

/** One limit as the passage needs it: a path and the line it must not cross. */
export interface PassageLimit {
  /** draws x days.length, row-major by draw, mm. */
  readonly path: Float64Array;
  /** Index in `days` of the cast, when the limit is on growth since then; null when it is on size. */
  readonly castIndex: number | null;
  /** Limit per search day, mm. */
  readonly limitMm: Float64Array;
  /** This device's own deviation from it, per draw, mm. */
  readonly deviationMm: Float64Array;
  /** First index in `search` that counts: before it a person found room. */
  readonly from?: number;
  /** Bars further down that lift the line as far as their own joint has grown beyond what they have given so far. */
  readonly lifts?: readonly PassageLift[];
}

export interface PassageLift {
  readonly path: Float64Array;
  readonly castIndex: number;
  /** Per search day, mm: what the bar has given, and what it has left. */
  readonly givenMm: Float64Array;
  readonly leftMm: Float64Array;
}

export interface Passage {
  /** Per draw: index into `search` of the first day past any limit; search.length when none. */
  readonly at: Int32Array;
  /** Per draw: index of the limit that fell first (by the larger excess on one day); -1 when none. */
  readonly by: Int32Array;
}

/**
 * First day in `search` on which growth since the cast (or size) exceeds a limit, jointly over all limits.
 * The noise-free path is linear between its `days`; every search day must lie within them.
 */
export function firstPassage(
  days: readonly DayNumber[],
  search: readonly DayNumber[],
  limits: readonly PassageLimit[],
  draws: number,
): Passage {
  const width = days.length;
  const left = new Int32Array(search.length);
  const share = new Float64Array(search.length);
  for (let j = 0, k = 0; j < search.length; j++) {
    while (k < width - 2 && days[k + 1] <= search[j]) k++;
    left[j] = k;
    share[j] = width === 1 ? 0 : (search[j] - days[k]) / (days[k + 1] - days[k]);
  }
  const at = new Int32Array(draws).fill(search.length);
  const by = new Int32Array(draws).fill(-1);
  for (let i = 0; i < draws; i++) {
    const row = i * width;
    let excess = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < limits.length; s++) {
      const { path, castIndex, limitMm, deviationMm, from = 0, lifts } = limits[s];
      const base = (castIndex === null ? 0 : path[row + castIndex]) + deviationMm[i];
      const sizeAt = (of: Float64Array, j: number) => {
        const before = of[row + left[j]];
        return width === 1 ? before : before + share[j] * (of[row + left[j] + 1] - before);
      };
      for (let j = from; j < search.length && j <= at[i]; j++) {
        let over = sizeAt(path, j) - base - limitMm[j];
        if (lifts && over > 0)
          for (const lift of lifts) {
            const grown = sizeAt(lift.path, j) - lift.path[row + lift.castIndex];
            over -= Math.min(lift.leftMm[j], Math.max(0, grown - lift.givenMm[j]));
          }
        if (over <= 0 || (j === at[i] && over <= excess)) continue;
        at[i] = j;
        by[i] = s;
        excess = over;
        break;
      }
    }
  }
  return { at, by };
}

/** Chance of passage on or before each search day, draws weighted (weights sum to 1). */
export function passageChance(passage: Passage, weights: Float64Array, searchDays: number): Float64Array {
  const chance = new Float64Array(searchDays);
  for (let i = 0; i < weights.length; i++)
    if (passage.at[i] < searchDays) chance[passage.at[i]] += weights[i];
  for (let j = 1; j < searchDays; j++) chance[j] = Math.min(1, chance[j] + chance[j - 1]);
  return chance;
}

/** Day on which a non-decreasing chance reaches p, linear between search days; null when it does not. */
export function dayOfChance(search: readonly DayNumber[], chance: Float64Array, p: number): DayNumber | null {
  const j = chance.findIndex((c) => c >= p);
  if (j < 0) return null;
  if (j === 0) return search[0];
  const part = (p - chance[j - 1]) / (chance[j] - chance[j - 1]);
  return search[j - 1] + part * (search[j] - search[j - 1]);
}

/** The chance by a day, linear between search days: 0 before the first, the last one after the last. */
export function chanceOn(search: readonly DayNumber[], chance: Float64Array, day: DayNumber): number {
  const j = search.findLastIndex((d) => d <= day);
  if (j < 0) return 0;
  if (j === search.length - 1) return chance[j];
  return chance[j] + ((chance[j + 1] - chance[j]) * (day - search[j])) / (search[j + 1] - search[j]);
}
