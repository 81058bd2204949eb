import { type DueDays, dueChances } from '../../forecast/contract.js';
import { dayNumber, type IsoDate, isoDate } from '../../records/dates.js';

/** The day on which something is due with chance p, linear between the days given; null where it is not. */
export function dueByChance(days: DueDays, p: number): IsoDate | null {
  const above = dueChances.findIndex((c) => c >= p - 1e-9);
  const upper = above < 0 ? null : days[above];
  if (upper === null || upper === undefined) return null;
  const lower = above > 0 ? days[above - 1] : null;
  if (lower === null) return upper;
  const part = (p - dueChances[above - 1]) / (dueChances[above] - dueChances[above - 1]);
  const [from, to] = [dayNumber(lower), dayNumber(upper)];
  return isoDate(Math.ceil(from + part * (to - from) - 1e-9));
}

/** The chance that it is due by a day. */
export function chanceDueBy(days: DueDays, day: IsoDate): number {
  const passed = days.findLastIndex((d) => d !== null && d <= day);
  if (passed < 0) return 0;
  const next = days[passed + 1];
  if (!next) return dueChances[passed];
  const [from, to] = [dayNumber(days[passed]!), dayNumber(next)];
  const part = to > from ? (dayNumber(day) - from) / (to - from) : 1;
  return dueChances[passed] + part * ((dueChances[passed + 1] ?? 1) - dueChances[passed]);
}
