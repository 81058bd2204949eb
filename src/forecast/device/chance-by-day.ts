import type { DayNumber } from '../../records/dates.js';

/** Index of the last of `days` (ascending) on or before a day; -1 before the first. */
export function lastOnOrBefore(days: readonly DayNumber[], day: DayNumber): number {
  let low = -1;
  let high = days.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (days[middle] <= day) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The chance by a day, linear between the days given: 0 before the first, the last one after the last. */
export function chanceOn(days: readonly DayNumber[], chance: ArrayLike<number>, day: DayNumber): number {
  const j = lastOnOrBefore(days, day);
  if (j < 0) return 0;
  if (j === days.length - 1) return chance[j];
  return chance[j] + ((chance[j + 1] - chance[j]) * (day - days[j])) / (days[j + 1] - days[j]);
}

/** Moment, in days, at which a non-decreasing chance reaches p, linear between the days given; null where it does not. */
export function dayOfChance(days: readonly DayNumber[], chance: ArrayLike<number>, p: number): number | null {
  let j = 0;
  while (j < chance.length && chance[j] < p) j++;
  if (j === chance.length) return null;
  if (j === 0) return days[0];
  const part = (p - chance[j - 1]) / (chance[j] - chance[j - 1]);
  return days[j - 1] + part * (days[j] - days[j - 1]);
}
