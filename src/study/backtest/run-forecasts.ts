import { groupBy } from '../../statistics/group-by.js';
import { type Noise, withNoise } from './clinic-noise.js';
import type { Forecaster } from './forecaster.js';
import { type BacktestMeasure, type GrowthRecord, type Known, knownAt } from './growth-record.js';
import { score } from './score.js';
import { trueCurve } from './true-curve.js';

export const horizonsYears: readonly number[] = [0.5, 1, 2];
const scoredMeasures: readonly BacktestMeasure[] = ['stature', 'leg_length'];

export interface ScoredForecast extends ReturnType<typeof score> {
  readonly childId: string;
  readonly sex: 'male' | 'female';
  readonly ageYears: number;
  readonly measure: BacktestMeasure;
  readonly horizonYears: number;
  readonly method: string;
  /** Was the truth a row of the record, or read between two rows? */
  readonly recorded: boolean;
}

export interface ForecastSettings {
  readonly noise: Noise;
  readonly seed: number;
  /** How often the noise is drawn anew; every draw is a forecast of its own. */
  readonly noiseDraws: number;
  readonly progress?: (done: number, of: number) => void;
}

/** A date at which the child was seen, what was known then, and what came true. */
export interface Origin {
  readonly wholeAge: number;
  readonly known: Known;
}

/** Every birthday at which a record can be forecast from, with what a clinic would have known there. */
export function origins(record: GrowthRecord, noise: Noise, seed: number): Origin[] {
  const measured = withNoise(record, noise, seed);
  const oldest = record.visits[record.visits.length - 1]?.ageYears ?? -1;
  return Array.from({ length: Math.floor(oldest) + 1 }, (_, wholeAge) => wholeAge).flatMap((wholeAge) => {
    const known = knownAt(measured, wholeAge);
    return known === null ? [] : [{ wholeAge, known }];
  });
}

/**
 * Makes and scores every forecast of every method: at each birthday, half a year, one and two years ahead.
 * Blind by construction: a forecaster is handed `Known` alone; the truth is read from the clean record after.
 */
export function runForecasts(
  records: readonly GrowthRecord[],
  forecastersFor: (record: GrowthRecord) => readonly Forecaster[],
  settings: ForecastSettings,
): ScoredForecast[] {
  const scored: ScoredForecast[] = [];
  const draws = settings.noise === 'clean' ? 1 : settings.noiseDraws;
  records.forEach((record, done) => {
    for (let draw = 0; draw < draws; draw++) scored.push(...forecastRecord(record, draw));
    settings.progress?.(done + 1, records.length);
  });
  return scored;

  function forecastRecord(record: GrowthRecord, draw: number): ScoredForecast[] {
    const noiseSeed = settings.seed + draw;
    const truths = scoredMeasures.flatMap((measure) => {
      const curve = trueCurve(record, measure);
      return curve === null ? [] : [{ measure, curve }];
    });
    const forecasters = forecastersFor(record);
    return origins(record, settings.noise, noiseSeed).flatMap(({ known }) => {
      const now = known.visits[known.visits.length - 1];
      const tasks = truths.flatMap(({ measure, curve }) =>
        now.sizes[measure] === undefined
          ? []
          : horizonsYears.flatMap((horizonYears) => {
              const truth = curve.truth(now.ageYears + horizonYears);
              return truth === null ? [] : [{ measure, horizonYears, truth }];
            }),
      );
      if (tasks.length === 0) return [];
      return forecasters.flatMap((forecaster) => {
        const forecast = forecaster.forecast(known);
        return [...groupBy(tasks, (t) => t.measure)].flatMap(([measure, ofMeasure]) => {
          const ahead = ofMeasure.map((t) => t.horizonYears);
          const scores = forecast
            .at(measure, ahead)
            .map((predictive, j) => score(predictive, ofMeasure[j].truth.size));
          return ofMeasure.map(({ horizonYears, truth }, j) => ({
            childId: record.id,
            sex: record.sex,
            ageYears: now.ageYears,
            measure,
            horizonYears,
            method: forecaster.method,
            recorded: truth.recorded,
            ...scores[j],
          }));
        });
      });
    });
  }
}
