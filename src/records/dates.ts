import { isValid, parseISO } from 'date-fns';

/** Calendar date, ISO 8601 'YYYY-MM-DD', no time zone. */
export type IsoDate = string;
/** Whole days since 1970-01-01 (proleptic Gregorian); what arithmetic is done in. */
export type DayNumber = number;

const MS_A_DAY = 86_400_000;
/** Mean Gregorian year in days, used for every decimal age. */
export const DAYS_A_YEAR = 365.25;

export function isIsoDate(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && isValid(parseISO(text));
}

/** dayNumber('1970-01-02') = 1. */
export function dayNumber(date: IsoDate): DayNumber {
  return Date.parse(date) / MS_A_DAY;
}

/** isoDate(1) = '1970-01-02'; a fraction of a day is rounded to the nearest day. */
export function isoDate(day: DayNumber): IsoDate {
  return new Date(Math.round(day) * MS_A_DAY).toISOString().slice(0, 10);
}

export function addDaysIso(date: IsoDate, days: number): IsoDate {
  return isoDate(dayNumber(date) + days);
}

/** daysBetween('2026-01-01', '2026-01-31') = 30. */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayNumber(to) - dayNumber(from);
}
