import type { ChildPosterior, GrowthInput, Prediction } from '../../growth/contract.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { fitChild } from '../../growth/prediction/fit-child.js';
import { DAYS_A_YEAR, type DayNumber, dayNumber, isoDate } from '../../records/dates.js';
import type { Series } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { type Noise, readingErrorSd, recordErrorSd } from './clinic-noise.js';
import { type ChildForecast, type Forecaster, HORIZON_DAYS } from './forecaster.js';
import type { BacktestMeasure, Known } from './growth-record.js';

/** Paths behind a median outgrown date: its sampling error is about a twentieth of the date's own SD. */
const DATE_DRAWS = 600;
const DATE_STEP_DAYS = 14;

/** The growth model as a forecaster, through the same `fitChild` that the service calls. */
export function growthForecaster(method: string, model: GrowthModel, noise: Noise, seed: number): Forecaster {
  return {
    method,
    forecast: (known) => fromPosterior(condition(known, model, noise), known, seed),
  };
}

/** Fits the engine to what was known; a backtest's children are never full-grown adults without readings. */
export function condition(known: Known, model: GrowthModel, noise: Noise): ChildPosterior {
  const outcome = fitChild(growthInput(known, noise), model);
  if (outcome.kind !== 'posterior') throw new Error(`a backtest forecast was refused: ${outcome.advice}`);
  return outcome.posterior;
}

function fromPosterior(posterior: ChildPosterior, known: Known, seed: number): ChildForecast {
  const ageYears = known.visits[known.visits.length - 1].ageYears;
  const today = dayAtAge(ageYears);
  const drawn = new Map<BacktestMeasure, readonly Float64Array[]>();
  const crossings = (measure: BacktestMeasure, allowanceMm: number) => {
    const paths = drawn.get(measure) ?? sampleAhead(posterior, measure, today, seed);
    drawn.set(measure, paths);
    return paths.map((path) => pathCrossingDays(dateDays, path, path[0] + allowanceMm)).sort((x, y) => x - y);
  };
  return {
    at(measure, aheadYears) {
      const days = aheadYears.map((ahead) => dayAtAge(ageYears + ahead));
      const prediction = posterior.predict(seriesOf(measure), days);
      const median = prediction.quantile(0.5);
      // The horizons are asked for the same levels one after another: each level is worked out once for all.
      const known = new Map<number, Float64Array>();
      const recorded = recordedBand(
        prediction,
        aheadYears.map((ahead) => recordErrorSd(measure, ageYears + ahead)),
      );
      const quantile = (p: number) => {
        const there = known.get(p) ?? recorded(p);
        known.set(p, there);
        return there;
      };
      return days.map((_, j) => ({ pointMm: median[j], quantile: (p) => quantile(p)[j] }));
    },
    daysUntilGrown: (measure, allowanceMm) => crossings(measure, allowanceMm)[DATE_DRAWS / 2],
    chanceGrown: (measure, allowanceMm, days) =>
      crossings(measure, allowanceMm).filter((d) => d <= days).length / DATE_DRAWS,
  };
}

const dateDays = Array.from(
  { length: Math.ceil(HORIZON_DAYS / DATE_STEP_DAYS) + 1 },
  (_, i) => i * DATE_STEP_DAYS,
);

/** Joint draws of the noise-free size from today to the horizon, one array a draw. */
function sampleAhead(posterior: ChildPosterior, measure: BacktestMeasure, today: number, seed: number) {
  const days = dateDays.map((d) => today + d);
  const [paths] = posterior.sample([seriesOf(measure)], days, DATE_DRAWS, seed);
  return Array.from({ length: DATE_DRAWS }, (_, i) => paths.subarray(i * days.length, (i + 1) * days.length));
}

/** First day a path exceeds a level, straight between its days; Infinity where it never does. */
function pathCrossingDays(days: readonly number[], path: ArrayLike<number>, level: number): number {
  for (let j = 0; j < days.length; j++) {
    if (path[j] <= level) continue;
    if (j === 0) return days[0];
    return days[j - 1] + ((days[j] - days[j - 1]) * (level - path[j - 1])) / (path[j] - path[j - 1]);
  }
  return Infinity;
}

/** Backtest files hold ages, the growth engine dates: every child is born on this day. */
const BIRTH = '2000-01-01';
const birthDay = dayNumber(BIRTH);

export const dayAtAge = (ageYears: number): DayNumber => birthDay + Math.round(ageYears * DAYS_A_YEAR);

/** Leg length of these records is stature less stem length: one figure for both legs. */
const seriesOf = (measure: BacktestMeasure): Series => ({ measure, side: 'none' });

function growthInput(known: Known, noise: Noise): GrowthInput {
  const measurements = known.visits.flatMap((visit): Measurement[] =>
    Object.entries(visit.sizes).map(([measure, value]) => ({
      id: `${measure}@${visit.ageYears}`,
      childId: 'child',
      measure: measure as BacktestMeasure,
      side: 'none',
      value,
      date: isoDate(dayAtAge(visit.ageYears)),
      method: '',
      observer: '',
      technicalError: readingErrorSd(noise, measure as BacktestMeasure, visit.ageYears),
      entered: '',
      extra: {},
    })),
  );
  return {
    birthDate: BIRTH,
    sex: known.sex,
    gestationWeeks: null,
    conditions: [],
    affectedSide: 'none',
    measurements,
    markers: [],
  };
}

/**
 * Quantiles, by day, of what will be written down, when a prediction is of the true size: the band about its median is
 * wider by the error (SD, mm) that the record itself carries.
 */
export function recordedBand(
  prediction: Prediction,
  errorMm: readonly number[],
): (p: number) => Float64Array {
  const median = prediction.quantile(0.5);
  const widening = errorMm.map((error, j) => Math.hypot(1, error / Math.max(prediction.sd[j], 1e-3)));
  return (p) => prediction.quantile(p).map((q, j) => median[j] + (q - median[j]) * widening[j]);
}
