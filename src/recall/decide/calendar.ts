import { addMonths, format, lastDayOfMonth, parseISO } from 'date-fns';
import { dayNumber, type IsoDate, isoDate } from '../../records/dates.js';

const iso = (d: Date): IsoDate => format(d, 'yyyy-MM-dd');

/** addMonthsIso('2026-01-31', 1) = '2026-02-28'; a part of a month counts as 30.44 days. */
export function addMonthsIso(date: IsoDate, months: number): IsoDate {
  if (months === 0) return date;
  const whole = Math.trunc(months);
  const moved = addMonths(parseISO(date), whole);
  moved.setDate(moved.getDate() + Math.round((months - whole) * 30.44));
  return iso(moved);
}

/** monthEnd('2026-02') = '2026-02-28'. */
export const monthEnd = (month: string): IsoDate => iso(lastDayOfMonth(parseISO(`${month}-01`)));

/** Monday of the week a date falls in. weekStart('2026-11-25') = '2026-11-23'. */
export function weekStart(date: IsoDate): IsoDate {
  const day = dayNumber(date);
  const sinceMonday = (day - A_MONDAY) % 7;
  return isoDate(day - (sinceMonday < 0 ? sinceMonday + 7 : sinceMonday));
}
/** 1970-01-05. */
const A_MONDAY = 4;
