import type { ChildPosterior } from '../../growth/contract.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { fitChild } from '../../growth/prediction/fit-child.js';
import { type Noise, recordErrorSd } from './clinic-noise.js';
import { type ChildForecast, type Forecaster, HORIZON_DAYS } from './forecaster.js';
import { dayAtAge, growthInput, seriesOf } from './growth-input.js';
import type { BacktestMeasure, Known } from './growth-record.js';
import { recordedBand } from './recorded-band.js';

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
export function pathCrossingDays(days: readonly number[], path: ArrayLike<number>, level: number): number {
  for (let j = 0; j < days.length; j++) {
    if (path[j] <= level) continue;
    if (j === 0) return days[0];
    return days[j - 1] + ((days[j] - days[j - 1]) * (level - path[j - 1])) / (path[j] - path[j - 1]);
  }
  return Infinity;
}
