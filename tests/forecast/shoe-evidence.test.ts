import { describe, expect, it } from 'vitest';
import { growthInput } from '../../src/forecast/growth-input.js';
import { shoeStepMm } from '../../src/records/shoe-size.js';
import { testRecord } from '../recall/build-a-clinic.js';

describe('a shoe size as evidence', () => {
  it('says of each foot no more than one size either way, both together', () => {
    const record = testRecord({ id: 'a' });
    const shoe = {
      ...record.measurements[0],
      id: 's',
      measure: 'shoe_length' as const,
      side: 'none' as const,
      value: 185,
      technicalError: shoeStepMm('EU'),
    };
    const told = growthInput({ ...record, measurements: [shoe] }).measurements;
    expect(told.map(({ measure, side, value }) => `${measure} ${side} ${value}`)).toEqual([
      'foot_length left 185',
      'foot_length right 185',
    ]);
    const together = 1 / Math.sqrt(told.reduce((sum, m) => sum + 1 / (m.technicalError ?? 0) ** 2, 0));
    expect(together).toBeGreaterThanOrEqual(shoeStepMm('EU'));
  });
});

it('a reading from before growth hormone counts as if measured half as exactly, one since as it is', () => {
  const on = (date: string) => {
    const record = testRecord({ id: 'a' });
    const child = { ...record.child, extra: { growth_hormone_start: '2026-03-01' } };
    const reading = { ...record.measurements[0], date, technicalError: 2 };
    return growthInput({ ...record, child, measurements: [reading] }).measurements[0].technicalError;
  };
  expect(['2026-02-28', '2026-03-01', '2026-04-01'].map(on)).toEqual([4, 2, 2]);
});
