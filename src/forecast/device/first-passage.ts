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

/** Search days between two knots of the paths, on which every path is one straight line. */
interface Stretch {
  /** Index of the knot before. */
  readonly knot: number;
  /** Indices into `search`, the end left out. */
  readonly start: number;
  readonly end: number;
}

/** Rounding that a straight line may stray by beyond its ends, mm. */
const ROUNDING_MM = 1e-9;

/**
 * First day in `search` on which growth since the cast (or size) exceeds a limit, jointly over all limits.
 * The noise-free path is linear between its `days`; every search day must lie within them. A stretch whose ends both
 * lie below its lowest limit is passed over whole.
 */
export function firstPassage(
  days: readonly DayNumber[],
  search: readonly DayNumber[],
  limits: readonly PassageLimit[],
  draws: number,
): Passage {
  const width = days.length;
  const { share, stretches } = stretched(days, search);
  const lowest = limits.map(({ limitMm, from = 0 }) => lowestLimits(limitMm, from, stretches));
  const at = new Int32Array(draws).fill(search.length);
  const by = new Int32Array(draws).fill(-1);
  const last = width === 1 ? 0 : 1;
  for (let i = 0; i < draws; i++) {
    const row = i * width;
    let excess = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < limits.length; s++) {
      const { path, castIndex, limitMm, deviationMm, from = 0, lifts } = limits[s];
      const base = (castIndex === null ? 0 : path[row + castIndex]) + deviationMm[i];
      const low = lowest[s];
      let found = false;
      for (let g = 0; g < stretches.length && !found; g++) {
        const { knot, start, end } = stretches[g];
        if (start > at[i]) break;
        const before = path[row + knot];
        const rise = path[row + knot + last] - before;
        if (before + Math.max(rise, 0) - base + ROUNDING_MM <= low[g]) continue;
        for (let j = Math.max(start, from); j < end && j <= at[i]; j++) {
          let over = before + share[j] * rise - base - limitMm[j];
          if (over > 0 && lifts) over -= lifted(lifts, row, knot, last, share[j], j);
          if (over <= 0 || (j === at[i] && over <= excess)) continue;
          at[i] = j;
          by[i] = s;
          excess = over;
          found = true;
          break;
        }
      }
    }
  }
  return { at, by };
}

/** Where each search day lies between knots, and the days of each pair of knots together. */
function stretched(
  days: readonly DayNumber[],
  search: readonly DayNumber[],
): { share: Float64Array; stretches: Stretch[] } {
  const width = days.length;
  const share = new Float64Array(search.length);
  const stretches: Stretch[] = [];
  for (let j = 0, k = 0; j < search.length; j++) {
    while (k < width - 2 && days[k + 1] <= search[j]) k++;
    share[j] = width === 1 ? 0 : (search[j] - days[k]) / (days[k + 1] - days[k]);
    const open = stretches.at(-1);
    if (open?.knot === k) stretches[stretches.length - 1] = { ...open, end: j + 1 };
    else stretches.push({ knot: k, start: j, end: j + 1 });
  }
  return { share, stretches };
}

function lowestLimits(limitMm: Float64Array, from: number, stretches: readonly Stretch[]): Float64Array {
  return Float64Array.from(stretches, ({ start, end }) => {
    let low = Number.POSITIVE_INFINITY;
    for (let j = Math.max(start, from); j < end; j++) low = Math.min(low, limitMm[j]);
    return low;
  });
}

/** By how much bars further down lift the line on a day, mm. */
function lifted(
  lifts: readonly PassageLift[],
  row: number,
  knot: number,
  last: number,
  share: number,
  j: number,
): number {
  let sum = 0;
  for (const { path, castIndex, leftMm, givenMm } of lifts) {
    const before = path[row + knot];
    const grown = before + share * (path[row + knot + last] - before) - path[row + castIndex];
    sum += Math.min(leftMm[j], Math.max(0, grown - givenMm[j]));
  }
  return sum;
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
