import { describe, expect, it } from 'vitest';
import { loadGrowthModel } from '../../../src/growth/population/model.js';
import type { Forecaster } from '../../../src/study/backtest/forecaster.js';
import { growthForecaster } from '../../../src/study/backtest/growth-forecaster.js';
import { outgrownDates } from '../../../src/study/backtest/outgrown-dates.js';
import { runForecasts } from '../../../src/study/backtest/run-forecasts.js';
import { simulatedRecords } from '../../../src/study/backtest/simulated-children.js';
import { summarise } from '../../../src/study/backtest/summarise.js';

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
    const of = { noise: 'clinic', seed: 5, noiseDraws: 1 } as const;
    const forecaster = growthForecaster('doorpost', model, 'clinic', 5);
    const scored = runForecasts(simulatedRecords(model, 24, 5), () => [forecaster], of);
    const rows = summarise(scored, of).filter((r) => r.ageBand === '9-15' && r.sex === 'all');
    expect(rows).toHaveLength(6);
    // 24 children, standard error by child about .035: four of them are allowed (a nominal 80 % band).
    for (const row of rows) expect(Math.abs(row.coverage80 - 0.8)).toBeLessThan(0.14);
  });

  it('are outgrown by the forecast dates as often as these say, those not seen outgrown counted too', () => {
    const forecaster = growthForecaster('doorpost', model, 'clinic', 3);
    const settings = { noise: 'clinic', seed: 3, noiseDraws: 1 } as const;
    const [ten] = outgrownDates(simulatedRecords(model, 24, 7), () => [forecaster], settings);
    expect(ten.devices).toBe(24 * 7);
    expect(ten.n + ten.censored).toBe(ten.devices);
    expect(ten.censored).toBeGreaterThan(10);
    // 24 children of 7 devices each: a standard error of about .05 at the median.
    expect(Math.abs(ten.outgrownByDate!.p50 - 0.5)).toBeLessThan(0.16);
    expect(Math.abs(ten.outgrownByDate!.p10 - 0.1)).toBeLessThan(0.1);
    expect(Math.abs(ten.outgrownByDate!.p90 - 0.9)).toBeLessThan(0.1);
  });

  it('would be seen if dates were a third too late', () => {
    const forecaster = growthForecaster('doorpost', model, 'clinic', 3);
    const late: Forecaster = {
      method: 'late',
      forecast(known) {
        const f = forecaster.forecast(known);
        return { ...f, chanceGrown: (m, room, days) => f.chanceGrown!(m, room, days * 0.75) };
      },
    };
    const settings = { noise: 'clinic', seed: 3, noiseDraws: 1 } as const;
    const [ten] = outgrownDates(simulatedRecords(model, 24, 7), () => [late], settings);
    expect(ten.outgrownByDate!.p50).toBeGreaterThan(0.66);
  });
});
