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
