import type { GrowthInput } from '../../growth/contract.js';
import { DAYS_A_YEAR, type DayNumber, dayNumber, isoDate } from '../../records/dates.js';
import type { Series } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { type Noise, readingErrorSd } from './clinic-noise.js';
import type { BacktestMeasure, Known } from './growth-record.js';

/** Backtest files hold ages, the growth engine dates: every child is born on this day. */
const BIRTH = '2000-01-01';
const birthDay = dayNumber(BIRTH);

export const dayAtAge = (ageYears: number): DayNumber => birthDay + Math.round(ageYears * DAYS_A_YEAR);

/** Leg length of these records is stature less stem length: one figure for both legs. */
export const seriesOf = (measure: BacktestMeasure): Series => ({ measure, side: 'none' });

export function growthInput(known: Known, noise: Noise): GrowthInput {
  const measurements = known.visits.flatMap((visit): Measurement[] =>
    Object.entries(visit.sizes).map(([measure, value]) => ({
      id: `${measure}@${visit.ageYears}`,
      childId: 'child',
      measure: measure as BacktestMeasure,
      side: 'none',
      value,
      date: isoDate(dayAtAge(visit.ageYears)),
      method: '',
      observer: '',
      technicalError: readingErrorSd(noise, measure as BacktestMeasure, visit.ageYears),
      entered: '',
      extra: {},
    })),
  );
  return {
    birthDate: BIRTH,
    sex: known.sex,
    gestationWeeks: null,
    conditions: [],
    affectedSide: 'none',
    measurements,
    markers: [],
  };
}
