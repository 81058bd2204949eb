import type { DayNumber } from '../../records/dates.js';

/** How close to each other days are at which a deviation from the expected curve is worked out. */
export interface KnotSpacing {
  readonly days: number;
  readonly logAge: number;
}

/** Days a deviation is worked out at, and how to read every asked day between them. */
export interface PathKnots {
  /** Indices of the asked days that are knots, in time order. */
  readonly at: readonly number[];
  /** All asked days' indices in time order. */
  readonly order: readonly number[];
  /** Knots that a day is read from: four, or as many as there are. */
  readonly knotsADay: number;
  /** Per day in time order: the first of its knots, and the weights of all of them (days x knotsADay). */
  readonly first: Int32Array;
  readonly weight: Float64Array;
}

const MOST_KNOTS_A_DAY = 4;

/**
 * Thins days (in any order) to knots; between them a deviation is the cubic through the four nearest (Lagrange).
 * `x`: log-age per day.
 */
export function pathKnots(days: readonly DayNumber[], x: readonly number[], spacing: KnotSpacing): PathKnots {
  const order = days.map((_, j) => j).sort((a, b) => days[a] - days[b]);
  const at: number[] = [];
  order.forEach((j, rank) => {
    const last = at.at(-1);
    const next = order[rank + 1];
    if (last !== undefined && days[last] === days[j]) return;
    const needed =
      last === undefined ||
      next === undefined ||
      days[next] - days[last] > spacing.days ||
      x[next] - x[last] > spacing.logAge;
    if (needed) at.push(j);
  });
  // A repeated last day leaves the days before it without a knot after them.
  const end = order[order.length - 1];
  if (end !== undefined && days[at[at.length - 1]] !== days[end]) at.push(end);
  const knotsADay = Math.min(MOST_KNOTS_A_DAY, at.length);
  const first = new Int32Array(days.length);
  const weight = new Float64Array(days.length * knotsADay);
  let k = 0;
  order.forEach((j, rank) => {
    while (k < at.length - 2 && days[at[k + 1]] <= days[j]) k++;
    const from = Math.max(0, Math.min(k - 1, at.length - knotsADay));
    first[rank] = from;
    for (let t = 0; t < knotsADay; t++) {
      let w = 1;
      const own = days[at[from + t]];
      for (let u = 0; u < knotsADay; u++) {
        const other = days[at[from + u]];
        if (u !== t) w *= (days[j] - other) / (own - other);
      }
      weight[rank * knotsADay + t] = w;
    }
  });
  return { at, order, knotsADay, first, weight };
}

/** Rows of values at the knots (rows x knots) read at every day in time order, added to `out` (rows x days). */
export function readBetween<T extends Float32Array | Float64Array>(
  { at, knotsADay, first, weight }: PathKnots,
  values: ArrayLike<number>,
  rows: number,
  out: T,
): T {
  const nk = at.length;
  const nd = first.length;
  for (let r = 0; r < rows; r++)
    for (let j = 0; j < nd; j++) {
      const from = r * nk + first[j];
      let sum = 0;
      for (let t = 0; t < knotsADay; t++) sum += weight[j * knotsADay + t] * values[from + t];
      out[r * nd + j] += sum;
    }
  return out;
}
