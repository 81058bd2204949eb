import { DAYS_A_YEAR, type DayNumber, dayNumber, type IsoDate } from './dates.js';

const TERM_WEEKS = 40;
/** Born before this many completed weeks is born early. */
const EARLY_BEFORE_WEEKS = 37;
/** Age from which no growth is forecast: the references end here. */
export const GROWN_YEARS = 20;
/** Prematurity is corrected for up to this chronological age (common practice, no source). */
export const CORRECT_UNTIL_YEARS = 2;

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
  const weeks = weeksCorrectedFor({ birthDate, gestationWeeks }, on);
  return weeks === null ? age : age - (weeks * 7) / DAYS_A_YEAR;
}

/** Weeks a child came before its time; null at term or where nobody said. weeksEarly(28) = 12. */
export const weeksEarly = (gestationWeeks: number | null): number | null =>
  gestationWeeks === null || gestationWeeks >= EARLY_BEFORE_WEEKS ? null : TERM_WEEKS - gestationWeeks;

/** Weeks by which the age is corrected on a day; null where it is not: born at term, or two years old. */
export function weeksCorrectedFor(
  child: { readonly birthDate: IsoDate; readonly gestationWeeks: number | null },
  on: IsoDate | DayNumber,
): number | null {
  const { birthDate, gestationWeeks } = child;
  return decimalAgeYears(birthDate, on) >= CORRECT_UNTIL_YEARS ? null : weeksEarly(gestationWeeks);
}
