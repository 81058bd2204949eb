import type { DayNumber } from '../../records/dates.js';

/** One limit as the passage needs it: a path and the line it must not cross. */
export interface PassageLimit {
  /** draws x days.length, row-major by draw, mm. */
  readonly path: Float64Array;
  /** Index in `days` of the cast, when the limit is on growth since then; null when it is on size. */
  readonly castIndex: number | null;
  /** Limit per search day, mm. */
  readonly limitMm: Float64Array;
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

/** Where each search day lies between the knots of the paths, and the days of each pair of knots together. */
export interface Grid {
  readonly days: readonly DayNumber[];
  readonly share: Float64Array;
  /** Per stretch of search days on which every path is one straight line: the knot before, its first day, its end. */
  readonly knot: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
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
  const grid = gridOf(days, search);
  const at = new Int32Array(draws).fill(search.length);
  const by = new Int32Array(draws).fill(-1);
  const excess = new Float64Array(draws).fill(Number.NEGATIVE_INFINITY);
  for (let s = 0; s < limits.length; s++) passLimit(grid, limits[s], s, at, by, excess);
  return { at, by };
}

/** Brings one limit in: draws it stops sooner, or on the same day by more, are its own from now on. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the dear loop over draws, stretches and days, written out for speed
function passLimit(
  { days, share, knot, start, end }: Grid,
  { path, castIndex, limitMm, from = 0, lifts }: PassageLimit,
  s: number,
  at: Int32Array,
  by: Int32Array,
  excess: Float64Array,
): void {
  const width = days.length;
  const last = width === 1 ? 0 : 1;
  const low = lowestLimits(limitMm, from, start, end);
  const stretches = knot.length;
  for (let i = 0; i < at.length; i++) {
    const row = i * width;
    const base = castIndex === null ? 0 : path[row + castIndex];
    for (let g = 0, found = false; g < stretches && !found && start[g] <= at[i]; g++) {
      const before = path[row + knot[g]];
      const rise = path[row + knot[g] + last] - before;
      if (before + Math.max(rise, 0) - base + ROUNDING_MM <= low[g]) continue;
      for (let j = Math.max(start[g], from); j < end[g] && j <= at[i]; j++) {
        let over = before + share[j] * rise - base - limitMm[j];
        if (over > 0 && lifts) over -= lifted(lifts, row, knot[g], last, share[j], j);
        if (over <= 0 || (j === at[i] && over <= excess[i])) continue;
        at[i] = j;
        by[i] = s;
        excess[i] = over;
        found = true;
        break;
      }
    }
  }
}

/** A device's search days are asked about many times over the same knots. */
const grids = new WeakMap<readonly DayNumber[], Grid>();

export function gridOf(days: readonly DayNumber[], search: readonly DayNumber[]): Grid {
  const before = grids.get(search);
  if (before?.days === days) return before;
  const width = days.length;
  const share = new Float64Array(search.length);
  const knot: number[] = [];
  const start: number[] = [];
  for (let j = 0, k = 0; j < search.length; j++) {
    while (k < width - 2 && days[k + 1] <= search[j]) k++;
    share[j] = width === 1 ? 0 : (search[j] - days[k]) / (days[k + 1] - days[k]);
    if (knot[knot.length - 1] === k) continue;
    knot.push(k);
    start.push(j);
  }
  const grid = {
    days,
    share,
    knot: Int32Array.from(knot),
    start: Int32Array.from(start),
    end: Int32Array.from(start, (_, g) => start[g + 1] ?? search.length),
  };
  grids.set(search, grid);
  return grid;
}

function lowestLimits(limitMm: Float64Array, from: number, start: Int32Array, end: Int32Array): Float64Array {
  const lowest = new Float64Array(start.length).fill(Number.POSITIVE_INFINITY);
  for (let g = 0; g < start.length; g++)
    for (let j = Math.max(start[g], from); j < end[g]; j++)
      if (limitMm[j] < lowest[g]) lowest[g] = limitMm[j];
  return lowest;
}

/** By how much bars further down lift the line on a day, mm. */
export function lifted(
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

/** Chance of passage on or before each search day. */
export function passageChance({ at }: Passage, searchDays: number): Float64Array {
  const chance = new Float64Array(searchDays);
  for (const day of at) if (day < searchDays) chance[day] += 1 / at.length;
  for (let j = 1; j < searchDays; j++) chance[j] = Math.min(1, chance[j] + chance[j - 1]);
  return chance;
}
