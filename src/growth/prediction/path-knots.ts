import type { DayNumber } from '../../records/dates.js';

/** Between days this close a deviation from the expected curve is taken as a straight line. */
const KNOT_DAYS = 49;
const KNOT_LOG_AGE = 0.08;

/** Days a path is worked out at, and how to read every asked day between them. */
export interface PathKnots {
  /** Indices of the asked days that are knots, in time order. */
  readonly at: readonly number[];
  /** All asked days' indices in time order. */
  readonly order: readonly number[];
  /** Per day in time order: the knot before it and how far it is towards the next, 0..1. */
  readonly before: Int32Array;
  readonly fraction: Float64Array;
}

/** Thins days (in any order) to knots; the error of the straight lines stays near 0.1 mm. `x`: log-age per day. */
export function pathKnots(days: readonly DayNumber[], x: readonly number[]): PathKnots {
  const order = days.map((_, j) => j).sort((a, b) => days[a] - days[b]);
  const at: number[] = [];
  order.forEach((j, rank) => {
    const last = at.at(-1);
    const next = order[rank + 1];
    if (last !== undefined && days[last] === days[j]) return;
    const needed =
      last === undefined ||
      next === undefined ||
      days[next] - days[last] > KNOT_DAYS ||
      x[next] - x[last] > KNOT_LOG_AGE;
    if (needed) at.push(j);
  });
  // A repeated last day leaves the days before it without a knot after them.
  const end = order[order.length - 1];
  if (end !== undefined && days[at[at.length - 1]] !== days[end]) at.push(end);
  const before = new Int32Array(days.length);
  const fraction = new Float64Array(days.length);
  let k = 0;
  order.forEach((j, rank) => {
    while (k < at.length - 2 && days[at[k + 1]] <= days[j]) k++;
    before[rank] = k;
    fraction[rank] = at.length > 1 ? (days[j] - days[at[k]]) / (days[at[k + 1]] - days[at[k]]) : 0;
  });
  return { at, order, before, fraction };
}
