import type { Sex } from '../records/records.js';

/** From these ages a halt is the usual end of growth; feet stop first (Anderson 1956, from memory; sources differ). */
const MATURE_YEARS = { female: 12, male: 14, unknown: 12 } as const;
const MARGIN_YEARS = 1;

export const isOfMatureAge = (sex: Sex, ageYears: number): boolean => ageYears >= MATURE_YEARS[sex];

/** A year younger a child is still to grow, and a halt is asked about. */
export const isStillToGrow = (sex: Sex, ageYears: number): boolean =>
  ageYears < MATURE_YEARS[sex] - MARGIN_YEARS;
