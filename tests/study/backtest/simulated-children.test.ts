import { describe, expect, it } from 'vitest';
import { loadGrowthModel } from '../../../src/growth/population/model.js';
import { simulatedCoverage, simulatedRecords } from '../../../src/study/backtest/simulated-children.js';

const model = loadGrowthModel();

describe('children drawn from the model', () => {
  it('are as large as the cohort it was fitted to: mean stature at 10 and 17 against the Berkeley records (Tuddenham & Snyder 1954, training half)', () => {
    // Means of 33 boys and 35 girls, mm, taken from the records in Python; SD 60-80 mm, so 100 children of a sex are
    // within 1 % nearly always; a caseload's offset may move them a little.
    const means = { male: { 10: 1413.8, 17: 1776.4 }, female: { 10: 1409.2, 17: 1660 } };
    const records = simulatedRecords(model, 200, 11);
    for (const sex of ['male', 'female'] as const)
      for (const age of [10, 17] as const) {
        const sizes = records
          .filter((r) => r.sex === sex)
          .map((r) => r.visits.find((v) => v.ageYears === age)!.sizes.stature!);
        const mean = sizes.reduce((a, b) => a + b, 0) / sizes.length;
        expect(Math.abs(mean / means[sex][age] - 1)).toBeLessThan(0.025);
      }
  });

  it('are forecast with bands that hold what they say', () => {
    const rows = simulatedCoverage(model, 24, 5, () => {});
    expect(rows).toHaveLength(6);
    // 24 children, standard error by child about .035: four of them are allowed (a nominal 80 % band).
    for (const row of rows) expect(Math.abs(row.coverage80 - 0.8)).toBeLessThan(0.14);
  });
});
