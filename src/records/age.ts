import { DAYS_A_YEAR, type DayNumber, dayNumber, type IsoDate } from './dates.js';

const TERM_WEEKS = 40;
/** Prematurity is corrected for up to this chronological age (common practice, no source). */
const CORRECT_UNTIL_YEARS = 2;

/** Decimal age in years: days lived / 365.25. decimalAgeYears('2020-01-01', '2021-01-01') = 1.002. */
export function decimalAgeYears(birthDate: IsoDate, on: IsoDate | DayNumber): number {
  return ((typeof on === 'number' ? on : dayNumber(on)) - dayNumber(birthDate)) / DAYS_A_YEAR;
}

/**
 * Age to read a growth reference at, years: for a child born before 37 completed weeks, age from the
 * 40-week due date until two years of chronological age; afterwards, and for term children, decimal age.
 * May be negative before the due date.
 */
export function referenceAgeYears(
  birthDate: IsoDate,
  on: IsoDate | DayNumber,
  gestationWeeks: number | null,
): number {
  const age = decimalAgeYears(birthDate, on);
  if (gestationWeeks === null || gestationWeeks >= 37 || age >= CORRECT_UNTIL_YEARS) return age;
  return age - ((TERM_WEEKS - gestationWeeks) * 7) / DAYS_A_YEAR;
}
