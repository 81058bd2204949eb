import { describe, expect, it } from 'vitest';
import { loadBaselineCurves } from '../../../src/growth/population/baseline-curves.js';
import { loadGrowthModel } from '../../../src/growth/population/model.js';
import { allForecasters } from '../../../src/study/backtest/backtest.js';
import type { Forecaster } from '../../../src/study/backtest/forecaster.js';
import type { GrowthRecord } from '../../../src/study/backtest/growth-record.js';
import { referenceSizeCurves } from '../../../src/study/backtest/reference-curves.js';
import { findLeaks } from './find-leaks.js';
import { inventedRecord } from './invented-records.js';

const shipped = allForecasters(loadGrowthModel(), loadBaselineCurves(), referenceSizeCurves(), {
  noise: 'clinic',
  seed: 1,
});

describe('a forecast knows nothing after its date', () => {
  for (const noise of ['clean', 'clinic'] as const)
    it(`stays the same to the last bit when the future is made nonsense (${noise})`, () => {
      const record = inventedRecord('b1', 'male', 0.4);
      expect(findLeaks(record, () => shipped, [4, 9, 12, 15], noise)).toEqual([]);
    });

  it('is a check that catches a forecaster which looks ahead', () => {
    const peeking = (record: GrowthRecord): Forecaster[] => [
      {
        method: 'peeks at the next row',
        forecast: (known) => {
          const now = known.visits[known.visits.length - 1];
          const next = record.visits.find((v) => v.ageYears > now.ageYears);
          const pointMm = next?.sizes.stature ?? 0;
          return {
            at: (_, ahead) => ahead.map(() => ({ pointMm, quantile: (p) => pointMm + p })),
            daysUntilGrown: () => 1,
          };
        },
      },
    ];
    const leaks = findLeaks(inventedRecord('g1', 'female'), peeking, [9, 12]);
    expect(leaks).toEqual([
      { method: 'peeks at the next row', age: 9 },
      { method: 'peeks at the next row', age: 12 },
    ]);
  });
});
