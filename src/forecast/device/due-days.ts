import { type DayNumber, isoDate } from '../../records/dates.js';
import { type DueDays, dueChances } from '../contract.js';
import { dayOfChance, firstPassage, type PassageLimit, passageChance } from './first-passage.js';

/** Days on which a line is passed with each of the stated chances, and the chance by day. */
export function dueDays(
  days: readonly DayNumber[],
  search: readonly DayNumber[],
  lines: readonly PassageLimit[],
  weights: Float64Array,
): { readonly chance: Float64Array; readonly days: DueDays } {
  const chance = passageChance(firstPassage(days, search, lines, weights.length), weights, search.length);
  return {
    chance,
    days: dueChances.map((p) => {
      const day = dayOfChance(search, chance, p);
      return day === null ? null : isoDate(day);
    }),
  };
}
