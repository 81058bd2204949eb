import { CORRECT_UNTIL_YEARS, decimalAgeYears, weeksEarly } from '../../records/age.js';
import { DAYS_A_YEAR, type DayNumber, type IsoDate } from '../../records/dates.js';

const NO_CORRECTION_FROM = 4;

/**
 * Age the growth model runs on, years. For a child born before 37 weeks: age from the due date until two
 * years, the correction then fading out evenly until four, because a correction that ends on one day would
 * make every forecast curve jump by up to three months' growth. Otherwise the decimal age.
 */
export function growthAgeYears(birthDate: IsoDate, day: DayNumber, gestationWeeks: number | null): number {
  const age = decimalAgeYears(birthDate, day);
  const weeks = weeksEarly(gestationWeeks);
  if (weeks === null) return age;
  const early = (weeks * 7) / DAYS_A_YEAR;
  const fade = (NO_CORRECTION_FROM - age) / (NO_CORRECTION_FROM - CORRECT_UNTIL_YEARS);
  return age - early * Math.min(1, Math.max(0, fade));
}

/** Position on the log-age axis the model works in: ln(age + 0.75); ages below -0.5 y are held there. */
export function logAge(ageYears: number): number {
  return Math.log(Math.max(ageYears, -0.5) + 0.75);
}

/** logAge's inverse, years. */
export function ageOfLogAge(x: number): number {
  return Math.exp(x) - 0.75;
}
