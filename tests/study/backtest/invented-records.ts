import type { GrowthRecord, Visit } from '../../../src/study/backtest/growth-record.js';

/**
 * Invented children in the shape of the followed cohort: a straight childhood and one logistic spurt, sizes in mm.
 * Only for checks that need a record, not a true one; nobody was measured.
 */
export function inventedRecord(id: string, sex: 'male' | 'female', late = 0): GrowthRecord {
  const peak = (sex === 'male' ? 13.8 : 11.8) + late;
  const stature = (age: number) =>
    760 + 58 * Math.min(age, peak + 1.5) + 130 / (1 + Math.exp(-1.6 * (age - peak))) + 20 * late;
  const visit = (ageYears: number): Visit => ({
    ageYears,
    sizes: {
      stature: stature(ageYears),
      weight: 10 + 2.6 * ageYears,
      ...(ageYears >= 8 && { leg_length: 0.48 * stature(ageYears) }),
    },
  });
  const ages = [2, 3, 4, 5, 6, 7, ...Array.from({ length: 21 }, (_, i) => 8 + i / 2)];
  return { id, sex, visits: ages.map(visit) };
}
