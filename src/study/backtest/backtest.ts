import type { CohortBaselines } from '../../growth/population/baseline-curves.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { type BaselineCurves, baselineForecaster, baselineMethods, baselineRules } from './baselines.js';
import type { Noise } from './clinic-noise.js';
import { cohortCurve, spreadCurve } from './cohort-curves.js';
import type { Forecaster } from './forecaster.js';
import { growthForecaster } from './growth-forecaster.js';
import type { GrowthRecord } from './growth-record.js';
import { type DateRow, outgrownDates } from './outgrown-dates.js';
import { runForecasts } from './run-forecasts.js';
import { simulatedCoverage, simulatedRecords } from './simulated-children.js';
import { type BacktestRow, summarise } from './summarise.js';

export interface BacktestSettings {
  readonly history: number;
  readonly noise: Noise;
  readonly seed: number;
  readonly noiseDraws: number;
  /** Children drawn from the model for the table `simulated`; 0 leaves it empty. */
  readonly simulatedChildren: number;
  readonly progress: (step: string, done: number, of: number) => void;
}

export interface BacktestTables {
  readonly rows: readonly BacktestRow[];
  readonly dates: readonly DateRow[];
  /** Forecasts of children drawn from the model itself, whose 80 % bands must hold 80 %. */
  readonly simulated: readonly BacktestRow[];
  /** Outgrown dates of such children: no forecast can come nearer than this. */
  readonly dateFloors: readonly DateRow[];
}

/** Every method's forecasts of every child, scored: the tables of the report. */
export function backtest(
  records: readonly GrowthRecord[],
  model: GrowthModel,
  baselines: CohortBaselines,
  curves: Pick<BaselineCurves, 'published' | 'own'>,
  settings: BacktestSettings,
): BacktestTables {
  const forecasters = allForecasters(model, baselines, curves, settings);
  const scored = runForecasts(records, () => forecasters, {
    ...settings,
    progress: (done, of) => settings.progress('forecasts', done, of),
  });
  const dates = outgrownDates(records, () => forecasters, {
    ...settings,
    progress: (done, of) => settings.progress('outgrown dates', done, of),
  });
  const { history, noise } = settings;
  return {
    rows: summarise(scored, { history, noise }),
    dates,
    simulated: simulatedCoverage(model, settings.simulatedChildren, settings.seed, (done, of) =>
      settings.progress('simulated children', done, of),
    ),
    dateFloors: outgrownDates(
      simulatedRecords(model, settings.simulatedChildren, settings.seed),
      () => [growthForecaster('doorpost', model, noise, settings.seed)],
      { ...settings, progress: (done, of) => settings.progress('dates of simulated children', done, of) },
    ),
  };
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
