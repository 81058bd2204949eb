import type { GrowthInput } from '../../src/growth/contract.js';
import type { GrowthModel } from '../../src/growth/population/growth-model.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { fitChild } from '../../src/growth/prediction/fit-child.js';
import { dayNumber, isoDate } from '../../src/records/dates.js';
import type { MeasureId, Side } from '../../src/records/measure.js';
import type { Measurement } from '../../src/records/records.js';

export const BIRTH = '2010-03-01';
export const dayAt = (ageYears: number) => dayNumber(BIRTH) + Math.round(ageYears * 365.25);

let count = 0;
export function reading(
  measure: MeasureId,
  ageYears: number,
  value: number,
  more: Partial<Measurement> & { side?: Side } = {},
): Measurement {
  return {
    id: `m${count++}`,
    childId: 'invented',
    measure,
    side: 'none',
    value,
    date: isoDate(dayAt(ageYears)),
    method: '',
    observer: '',
    technicalError: null,
    entered: '',
    extra: {},
    ...more,
  };
}

export function child(measurements: Measurement[], more: Partial<GrowthInput> = {}): GrowthInput {
  return {
    birthDate: BIRTH,
    sex: 'male',
    gestationWeeks: null,
    conditions: [],
    affectedSide: 'none',
    measurements,
    markers: [],
    ...more,
  };
}

export function posteriorOf(input: GrowthInput, model: GrowthModel = loadGrowthModel()) {
  const outcome = fitChild(input, model);
  if (outcome.kind !== 'posterior') throw new Error(`no posterior: ${outcome.kind}`);
  return outcome.posterior;
}
