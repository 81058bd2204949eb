import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../../src/exchange/csv/read-table.js';
import { loadBaselineCurves } from '../../../src/growth/population/baseline-curves.js';
import { baselineForecaster, baselineMethods, baselineRules } from '../../../src/study/backtest/baselines.js';
import { cohortCurve, fitCohortCurves, spreadCurve } from '../../../src/study/backtest/cohort-curves.js';
import { parseRecords } from '../../../src/study/backtest/parse-records.js';
import { referenceSizeCurves } from '../../../src/study/backtest/reference-curves.js';
import { runForecasts } from '../../../src/study/backtest/run-forecasts.js';
import { summarise } from '../../../src/study/backtest/summarise.js';

const path = fileURLToPath(new URL('../../../../shared/data/berkeley/children.csv', import.meta.url));
const there = existsSync(path);
if (!there) console.log('skipped: the followed children (../shared/data/berkeley) are not on this machine');

describe.skipIf(!there)('on the followed children, training half', () => {
  const records = there ? parseRecords(readTable(path, readFileSync(path))) : [];
  const baselines = loadBaselineCurves();
  const rules = baselineRules({ ...referenceSizeCurves(), cohort: cohortCurve(baselines.curves) });
  const forecasters = baselineMethods.map((method) =>
    baselineForecaster(method, rules[method], spreadCurve(baselines, 'clean')),
  );
  const settings = { noise: 'clean' as const, seed: 1, noiseDraws: 1 };
  const rows = summarise(
    runForecasts(records, () => forecasters, settings),
    settings,
  );
  const leg = (method: string, horizonYears: number) =>
    rows.find(
      (r) =>
        r.measure === 'leg_length' &&
        r.sex === 'all' &&
        r.ageBand === '9-15' &&
        r.horizonYears === horizonYears &&
        r.method === method,
    )!;

  // The same rules written a second time in Python 3.11 with numpy 's nanmean, nanstd and interp, on the same file:
  // mean absolute error of 476 forecasts from ages 9 to 15, cm.
  const numpy = {
    'published-centile': [0.4735, 0.8891, 1.5425],
    'cohort-centile': [0.3872, 0.7128, 1.1739],
  };
  for (const [method, expected] of Object.entries(numpy))
    it(`finds the errors of ${method} against a numpy run`, () => {
      [0.5, 1, 2].forEach((horizon, i) => {
        const row = leg(method, horizon);
        expect(row.n).toBe(476);
        expect(Math.abs(row.maeCm - expected[i])).toBeLessThan(0.002);
      });
    });

  it('gives the plain methods bands that hold what they say in the cohort they were fitted to', () => {
    for (const method of baselineMethods)
      for (const horizon of [0.5, 1, 2]) {
        const { coverage80 } = leg(method, horizon);
        expect(coverage80).toBeGreaterThan(0.76);
        expect(coverage80).toBeLessThan(0.86);
      }
  });

  it('ships mean curves that are those of the file', () => {
    const refit = fitCohortCurves(records, [10, 14]);
    for (const sex of ['male', 'female'] as const) {
      const shipped = baselines.curves.leg_length[sex];
      refit.leg_length[sex].ageYears.forEach((age, i) => {
        expect(shipped.meanMm[shipped.ageYears.indexOf(age)]).toBe(refit.leg_length[sex].meanMm[i]);
      });
    }
  });
});
