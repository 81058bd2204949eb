import { isValid, parseISO } from 'date-fns';

/** Calendar date, ISO 8601 'YYYY-MM-DD', no time zone. */
export type IsoDate = string;
/** Whole days since 1970-01-01 (proleptic Gregorian); what arithmetic is done in. */
export type DayNumber = number;

/** In the order of their numbers, 1 Monday .. 7 Sunday. */
export const weekdayNames = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;
/** weekdayName(1) = 'Monday'. */
export const weekdayName = (weekday: number): string => weekdayNames[weekday - 1];

const MS_A_DAY = 86_400_000;
/** Mean Gregorian year in days, used for every decimal age. */
export const DAYS_A_YEAR = 365.25;

export function isIsoDate(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && isValid(parseISO(text));
}

/** Days looked up again and again in a forecast; parsing and writing them took a twentieth of it. */
const known = { dayOf: new Map<IsoDate, DayNumber>(), dateOf: new Map<DayNumber, IsoDate>() };
/** Two centuries: what is beyond is parsed anew rather than kept for ever. */
const MOST_KNOWN = 73_000;

/** dayNumber('1970-01-02') = 1. */
export function dayNumber(date: IsoDate): DayNumber {
  const before = known.dayOf.get(date);
  if (before !== undefined) return before;
  const day = Date.parse(date) / MS_A_DAY;
  if (known.dayOf.size < MOST_KNOWN) known.dayOf.set(date, day);
  return day;
}

/** isoDate(1) = '1970-01-02'; a fraction of a day is rounded to the nearest day. */
export function isoDate(day: DayNumber): IsoDate {
  const whole = Math.round(day);
  const before = known.dateOf.get(whole);
  if (before !== undefined) return before;
  const date = new Date(whole * MS_A_DAY).toISOString().slice(0, 10);
  if (known.dateOf.size < MOST_KNOWN) known.dateOf.set(whole, date);
  return date;
}

export function addDaysIso(date: IsoDate, days: number): IsoDate {
  return isoDate(dayNumber(date) + days);
}

/** daysBetween('2026-01-01', '2026-01-31') = 30. */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayNumber(to) - dayNumber(from);
}
