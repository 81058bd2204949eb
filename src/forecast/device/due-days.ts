import { type DayNumber, isoDate } from '../../records/dates.js';
import { type DueDays, dueChances } from '../contract.js';
import { dayOfChance } from './chance-by-day.js';
import { type OwnLimit, passageCurve } from './passage-curve.js';

/** A strap or a part is not wanted to the day: days tried twice as far apart move its dates by 3 days at the middle date, 5 at the earliest (701, invented). */
const APART_DAYS = 60;

/** Days on which a line is passed with each of the stated chances, the chance by day, and each line's part of it. */
export function dueDays(
  days: readonly DayNumber[],
  search: readonly DayNumber[],
  lines: readonly OwnLimit[],
  draws: number,
): { readonly chance: Float64Array; readonly share: Float64Array; readonly days: DueDays } {
  const { chance, share } = passageCurve(days, search, lines, draws, null, APART_DAYS);
  return {
    chance,
    share,
    days: dueChances.map((p) => {
      const day = dayOfChance(search, chance, p);
      return day === null ? null : isoDate(day);
    }),
  };
}
