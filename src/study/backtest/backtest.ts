import type { CohortBaselines } from '../../growth/population/baseline-curves.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { type BaselineCurves, baselineForecaster, baselineMethods, baselineRules } from './baselines.js';
import type { Noise } from './clinic-noise.js';
import { cohortCurve, spreadCurve } from './cohort-curves.js';
import type { Forecaster } from './forecaster.js';
import { growthForecaster } from './growth-forecaster.js';
import type { GrowthRecord } from './growth-record.js';
import { type DateRow, outgrownDates } from './outgrown-dates.js';
import { type ForecastSettings, runForecasts } from './run-forecasts.js';
import { type BacktestRow, summarise } from './summarise.js';

/** Every method's forecasts of every child, scored: the tables of the report. */
export function backtest(
  records: readonly GrowthRecord[],
  forecasters: readonly Forecaster[],
  settings: Omit<ForecastSettings, 'progress'> & {
    readonly progress: (step: string, done: number, of: number) => void;
  },
): { readonly rows: readonly BacktestRow[]; readonly dates: readonly DateRow[] } {
  const step = (name: string): ForecastSettings => ({
    ...settings,
    progress: (done, of) => settings.progress(name, done, of),
  });
  const scored = runForecasts(records, () => forecasters, step('forecasts'));
  const dates = outgrownDates(records, () => forecasters, step('outgrown dates'));
  return { rows: summarise(scored, settings), dates };
}

export function allForecasters(
  model: GrowthModel,
  baselines: CohortBaselines,
  curves: Pick<BaselineCurves, 'published' | 'own'>,
  { noise, seed }: { readonly noise: Noise; readonly seed: number },
): readonly Forecaster[] {
  const rules = baselineRules({ ...curves, cohort: cohortCurve(baselines.curves) });
  return [
    growthForecaster('doorpost', model, noise, seed),
    ...baselineMethods.map((method) =>
      baselineForecaster(method, rules[method], spreadCurve(baselines, noise)),
    ),
  ];
}
