import type { CohortBaselines } from '../../growth/population/baseline-curves.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { randomStream } from '../../statistics/random-stream.js';
import { type BaselineCurves, baselineForecaster, baselineMethods, baselineRules } from './baselines.js';
import { type CalibrationRow, calibration, type MaturityWindowRow, maturityWindows } from './calibration.js';
import { hash, type Noise } from './clinic-noise.js';
import { cohortCurve, spreadCurve } from './cohort-curves.js';
import type { Forecaster } from './forecaster.js';
import { growthForecaster } from './growth-forecaster.js';
import type { GrowthRecord } from './growth-record.js';
import { type DateRow, outgrownDates } from './outgrown-dates.js';
import { ageAtPeakVelocity } from './peak-velocity.js';
import { runForecasts } from './run-forecasts.js';
import { simulatedCoverage, simulatedRecords } from './simulated-children.js';
import { type BacktestRow, type RatioRow, ratios, summarise } from './summarise.js';

/** How well the simulated maturity marker knows the age at peak height velocity, years: 'good to 6 months'. */
const MARKER_SD_YEARS = 0.5;

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
  readonly ratios: readonly RatioRow[];
  readonly dates: readonly DateRow[];
  readonly maturityWindows: readonly MaturityWindowRow[];
  readonly calibration: readonly CalibrationRow[];
  /** Forecasts of children drawn from the model itself, whose 80 % bands must hold 80 %. */
  readonly simulated: readonly BacktestRow[];
  /** Outgrown dates of such children: no forecast can come nearer than this. */
  readonly dateFloors: readonly DateRow[];
}

export interface BacktestModels {
  readonly doorpost: GrowthModel;
  /** Median curves from reference-data alone, a caseload's offset the only thing learned. Null: not compared. */
  readonly referencesOnly: GrowthModel | null;
}

/** Every method's forecasts of every child, scored: the tables of the report. */
export function backtest(
  records: readonly GrowthRecord[],
  models: BacktestModels,
  baselines: CohortBaselines,
  curves: Pick<BaselineCurves, 'published' | 'own'>,
  settings: BacktestSettings,
): BacktestTables {
  const forecastersFor = allForecasters(models, baselines, curves, settings);
  const scored = runForecasts(records, forecastersFor, {
    ...settings,
    progress: (done, of) => settings.progress('forecasts', done, of),
  });
  const dates = outgrownDates(records, forecastersFor, {
    ...settings,
    progress: (done, of) => settings.progress('outgrown dates', done, of),
  });
  const { history, noise } = settings;
  return {
    rows: summarise(scored, { history, noise }),
    ratios: ratios(scored, { history, noise }),
    dates,
    maturityWindows: maturityWindows(scored, ['doorpost', 'doorpost-references-only']),
    calibration: calibration(scored, ['doorpost', 'doorpost-references-only']),
    simulated: simulatedCoverage(models.doorpost, settings.simulatedChildren, settings.seed, (done, of) =>
      settings.progress('simulated children', done, of),
    ),
    dateFloors: outgrownDates(
      simulatedRecords(models.doorpost, settings.simulatedChildren, settings.seed),
      () => [growthForecaster('doorpost', models.doorpost, noise, settings.seed)],
      { ...settings, progress: (done, of) => settings.progress('dates of simulated children', done, of) },
    ),
  };
}

/** Every method under test, for one child: all but 'doorpost-with-marker' are the same for every child. */
export function allForecasters(
  models: BacktestModels,
  baselines: CohortBaselines,
  curves: Pick<BaselineCurves, 'published' | 'own'>,
  { noise, seed }: { readonly noise: Noise; readonly seed: number },
): (record: GrowthRecord, noiseSeed: number) => readonly Forecaster[] {
  const rules = baselineRules({ ...curves, cohort: cohortCurve(baselines.curves) });
  const withoutMarker = [
    growthForecaster('doorpost', models.doorpost, noise, seed),
    ...(models.referencesOnly === null
      ? []
      : [growthForecaster('doorpost-references-only', models.referencesOnly, noise, seed)]),
    ...baselineMethods.map((method) =>
      baselineForecaster(method, rules[method], spreadCurve(baselines, noise)),
    ),
  ];
  return (record, noiseSeed) => [
    ...withoutMarker,
    growthForecaster(
      'doorpost-with-marker',
      models.doorpost,
      noise,
      seed,
      simulatedMarker(record, noiseSeed),
    ),
  ];
}

/**
 * The one method that is allowed a look at the whole record, and says so in its name: a marker of the child's own
 * age at peak height velocity with a seeded error. Null where the record shows no peak: that child is forecast without one,
 * so that every method makes the same forecasts.
 */
function simulatedMarker(record: GrowthRecord, seed: number) {
  const peak = ageAtPeakVelocity(record);
  if (peak === null) return null;
  const error = randomStream(hash(`${seed}|${record.id}|marker`)).normal();
  return { peakAgeYears: peak + MARKER_SD_YEARS * error, sdYears: MARKER_SD_YEARS };
}
