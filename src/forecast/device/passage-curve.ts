import type { DayNumber } from '../../records/dates.js';
import { floatsOf } from '../../statistics/floats-of.js';
import { monotoneCubic } from '../../statistics/monotone-cubic.js';
import { type Grid, gridOf, lifted, type PassageLimit } from './first-passage.js';
import { chanceHeld, type OwnDeviation } from './own-limit.js';

/** A limit that one device has somewhere about the stated one. */
export interface OwnLimit extends PassageLimit {
  readonly own: OwnDeviation;
}

export interface PassageCurve {
  /** Chance of having passed any limit on or before each search day. */
  readonly chance: Float64Array;
  /** Per limit: the part of the last chance in which it was the first to be passed. */
  readonly share: Float64Array;
  /** Per draw: a day of passage out of all its own may be, by `luck`; the last search day where it is not passed. */
  readonly dayOf: Float64Array;
}

/** The days tried: their places in the search, the knot before each, and how far each is on from it. */
interface Places {
  readonly at: Int32Array;
  readonly knot: Int32Array;
  readonly part: Float64Array;
  /** From a knot to the next one; none where there is but one. */
  readonly last: number;
}

/** A stretch is tried so many days apart, in at most so many parts; between them a cubic that keeps rising is read. */
const APART_DAYS = 28;
const MOST_PARTS = 2;
/** A draw that is passed but for so little is not followed further. */
const NOTHING = 4e-3;

/** An excess that one device in ten thousand does not bear. */
const SAFE_SDS = -9;

let survival = new Float64Array(4096);

/**
 * As `firstPassage`, but over every deviation that a device's own limits may have instead of one drawn for each draw:
 * given its path, the chance that a draw lasts is the product of what each limit's distribution leaves. Rao and
 * Blackwell: the mean is the same, the noise less.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the dear loop over draws, days tried and limits, written out for speed
export function passageCurve(
  days: readonly DayNumber[],
  search: readonly DayNumber[],
  limits: readonly OwnLimit[],
  draws: number,
  luck: Float64Array | null = null,
  apartDays = APART_DAYS,
): PassageCurve {
  const grid = gridOf(days, search);
  const { at, knot } = triedDays(grid, search, limits, apartDays);
  const tried = at.length;
  const n = limits.length;
  if (survival.length < n * tried) survival = new Float64Array(2 * n * tried);
  const passed = new Float64Array(tried);
  const share = new Float64Array(n);
  const fell = new Float64Array(n);
  const end = search[search.length - 1];
  const dayOf = new Float64Array(luck ? draws : 0).fill(end);
  const places: Places = {
    at,
    knot,
    part: floatsOf(at, (j) => grid.share[j]),
    last: days.length > 1 ? 1 : 0,
  };
  const lines = limits.map((l) => floatsOf(at, (j) => l.limitMm[j]));
  const first = limits.map(({ from = 0 }, d) => {
    const e = at.findIndex((j) => j >= from);
    survival.fill(1, d * tried, d * tried + (e < 0 ? tried : e));
    return e < 0 ? tried : e;
  });
  const falls = new Int32Array(n);
  for (let i = 0; i < draws; i++) {
    let stop = tried;
    let start = tried;
    for (let d = 0; d < n; d++) {
      stop = follow(limits[d], lines[d], places, i, days.length, d, Math.min(stop, first[d]), stop, falls);
      start = Math.min(start, falls[d]);
    }
    let left = 1;
    for (let e = start; e < stop; e++) {
      let now = 1;
      for (let d = 0; d < n; d++) now *= survival[d * tried + e];
      if (now < left) {
        shareOut(left - now, e, n, tried, fell, share);
        const own = luck ? 1 - luck[i] : 2;
        if (own <= left && own > now && e > 0)
          dayOf[i] = search[at[e - 1]] + ((left - own) / (left - now)) * (search[at[e]] - search[at[e - 1]]);
        left = now;
      }
      passed[e] += 1 - left;
    }
    for (let e = stop; e < tried; e++) passed[e] += 1;
  }
  for (let e = 0; e < tried; e++) passed[e] /= draws;
  for (let d = 0; d < n; d++) share[d] /= draws;
  return { chance: everyDay(search, at, passed), share, dayOf };
}

/** The search days tried: along every stretch, and wherever a limit begins to count or jumps. */
function triedDays(
  { knot, start, end }: Grid,
  search: readonly DayNumber[],
  limits: readonly OwnLimit[],
  apartDays: number,
): { at: Int32Array; knot: Int32Array } {
  const tried = new Set<number>([0, search.length - 1]);
  for (let g = 0; g < start.length; g++) {
    const long = search[Math.min(end[g], search.length - 1)] - search[start[g]];
    const parts = Math.min(MOST_PARTS, Math.max(1, Math.ceil(long / apartDays)));
    for (let k = 0; k < parts; k++) tried.add(start[g] + Math.round((k * (end[g] - start[g])) / parts));
  }
  const jump = (j: number) => {
    if (j > 0) tried.add(j - 1);
    if (j < search.length) tried.add(j);
  };
  for (const { from = 0, limitMm, lifts = [] } of limits) {
    jump(from);
    for (const steps of [limitMm, ...lifts.map((l) => l.givenMm)])
      for (let j = 1; j < search.length; j++) if (steps[j] !== steps[j - 1]) jump(j);
  }
  const at = Int32Array.from(tried)
    .filter((j) => j < search.length)
    .sort();
  let g = 0;
  return {
    at,
    knot: at.map((j) => {
      while (g + 1 < start.length && start[g + 1] <= j) g++;
      return knot[g];
    }),
  };
}

/**
 * Chance that limit d of one draw has held up to each day tried, into its row of `survival`; ends behind the first that is
 * nothing. `falls`: per limit the first day tried with any chance of being past it, the end where there is none.
 */
function follow(
  { path, castIndex, lifts, own }: OwnLimit,
  line: Float64Array,
  { at, knot, part, last }: Places,
  draw: number,
  width: number,
  d: number,
  begin: number,
  end: number,
  falls: Int32Array,
): number {
  // So far below the limit hardly any device is passed.
  const safe = own.high[draw] > 0 ? SAFE_SDS * own.sdMm : Number.NEGATIVE_INFINITY;
  const low = Math.max(own.low[draw], safe);
  const from = draw * width;
  const base = castIndex === null ? 0 : path[from + castIndex];
  const row = d * at.length;
  let most = Number.NEGATIVE_INFINITY;
  let held = 1;
  let fall = end;
  let stop = end;
  for (let e = begin; e < stop; e++) {
    const before = path[from + knot[e]];
    let over = before + part[e] * (path[from + knot[e] + last] - before) - base - line[e];
    if (lifts) over -= lifted(lifts, from, knot[e], last, part[e], at[e]);
    if (over > most) {
      most = over;
      if (over > low) held = chanceHeld(own, draw, over);
    }
    if (held < 1 && e < fall) fall = e;
    if (held < NOTHING) stop = e + 1;
    survival[row + e] = held;
  }
  falls[d] = fall;
  return stop;
}

/** Whose part of a fall it is: in proportion to what each limit's own chance lost. */
function shareOut(
  fall: number,
  e: number,
  n: number,
  tried: number,
  fell: Float64Array,
  share: Float64Array,
): void {
  if (n === 1) {
    share[0] += fall;
    return;
  }
  let total = 0;
  for (let d = 0; d < n; d++) {
    const before = e > 0 ? survival[d * tried + e - 1] : 1;
    fell[d] = before > 0 ? (before - survival[d * tried + e]) / before : 0;
    total += fell[d];
  }
  if (total > 0) for (let d = 0; d < n; d++) share[d] += (fall * fell[d]) / total;
}

function everyDay(search: readonly DayNumber[], at: Int32Array, passed: Float64Array): Float64Array {
  if (at.length === search.length) return passed;
  const chance = monotoneCubic(
    Array.from(at, (j) => search[j]),
    Array.from(passed),
  );
  return floatsOf(search, chance);
}
