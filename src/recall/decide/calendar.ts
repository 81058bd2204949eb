import { addMonths, format, lastDayOfMonth, parseISO, startOfISOWeek } from 'date-fns';
import type { IsoDate } from '../../records/dates.js';

const iso = (d: Date): IsoDate => format(d, 'yyyy-MM-dd');

/** addMonthsIso('2026-01-31', 1) = '2026-02-28'; a part of a month counts as 30.44 days. */
export function addMonthsIso(date: IsoDate, months: number): IsoDate {
  const whole = Math.trunc(months);
  const moved = addMonths(parseISO(date), whole);
  moved.setDate(moved.getDate() + Math.round((months - whole) * 30.44));
  return iso(moved);
}

/** monthEnd('2026-02') = '2026-02-28'. */
export const monthEnd = (month: string): IsoDate => iso(lastDayOfMonth(parseISO(`${month}-01`)));

/** Monday of the week a date falls in. weekStart('2026-11-25') = '2026-11-23'. */
export const weekStart = (date: IsoDate): IsoDate => iso(startOfISOWeek(parseISO(date)));
