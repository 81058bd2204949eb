import type { GrowthInput } from '../../growth/contract.js';
import { fromScale } from '../../growth/population/growth-scale.js';
import { DAYS_A_YEAR, dayNumber, isoDate } from '../../records/dates.js';
import type { FollowedRow } from './followed-records.js';

/** Records hold ages, the engine dates: every child is born on this day. */
const BIRTH = '2000-01-01';
export const dayAtAge = (ageYears: number): number => dayNumber(BIRTH) + Math.round(ageYears * DAYS_A_YEAR);

/** Serial records as the engine reads a child; `errorMm` null for the measure's own technical error. */
export function longitudinalInput(
  sex: 'male' | 'female',
  rows: readonly (FollowedRow & { readonly errorMm?: number | null })[],
): GrowthInput {
  return {
    birthDate: BIRTH,
    sex,
    gestationWeeks: null,
    conditions: [],
    affectedSide: 'none',
    markers: [],
    measurements: rows.map((r, i) => ({
      id: String(i),
      childId: 'child',
      measure: r.measure,
      side: 'none',
      value: fromScale(r.measure, r.value),
      date: isoDate(dayAtAge(r.ageYears)),
      method: '',
      observer: '',
      technicalError: r.errorMm ?? null,
      entered: '',
      extra: {},
    })),
  };
}
