import { DateTime } from 'luxon';
import type { IsoDate } from '../../records/dates.js';

/** A date that is none says so here, not as a text further on. */
function calendarDay(date: IsoDate): DateTime<true> {
  const day = DateTime.fromISO(date, { zone: 'utc' });
  if (!day.isValid) throw new RangeError('not a day of the calendar');
  return day;
}

/** addMonthsIso('2026-01-31', 1) = '2026-02-28'; a part of a month counts as 30.44 days. */
export function addMonthsIso(date: IsoDate, months: number): IsoDate {
  const whole = Math.trunc(months);
  return calendarDay(date)
    .plus({ months: whole })
    .plus({ days: Math.round((months - whole) * 30.44) })
    .toISODate();
}

/** monthEnd('2026-02') = '2026-02-28'. */
export const monthEnd = (month: string): IsoDate => calendarDay(`${month}-01`).endOf('month').toISODate();

/** Monday of the week a date falls in. weekStart('2026-11-25') = '2026-11-23'. */
export const weekStart = (date: IsoDate): IsoDate => calendarDay(date).startOf('week').toISODate();
