import type { CohortBaselines } from '../../growth/population/baseline-curves.js';
import { groupBy } from '../../statistics/group-by.js';
import { rounded } from '../../statistics/rounded.js';
import { type BaselineCurves, baselineForecaster, baselineMethods, baselineRules } from './baselines.js';
import type { Noise } from './clinic-noise.js';
import { cohortCurve, fitCohortCurves } from './cohort-curves.js';
import type { GrowthRecord } from './growth-record.js';
import { horizonsYears, runForecasts, type ScoredForecast } from './run-forecasts.js';

const NOISE_DRAWS = 20;
/** Forecasts from a year younger or older count half: 33 children at one age alone would leave the SD rough. */
const NEIGHBOUR_WEIGHT = 0.5;

/** Curves and error SDs of the plain methods in one cohort: what makes their CRPS a fair one. */
export function fitBaselines(
  records: readonly GrowthRecord[],
  published: Pick<BaselineCurves, 'published' | 'own'>,
  settings: { readonly source: string; readonly ages: readonly number[]; readonly seed: number },
): CohortBaselines {
  const curves = fitCohortCurves(records, settings.ages);
  const rules = baselineRules({ ...published, cohort: cohortCurve(curves) });
  const forecasters = baselineMethods.map((method) => baselineForecaster(method, rules[method], () => 1));
  const errors = (noise: Noise) =>
    runForecasts(records, () => forecasters, {
      noise,
      seed: settings.seed,
      noiseDraws: NOISE_DRAWS,
    });
  const scored = { clean: errors('clean'), clinic: errors('clinic') };
  return {
    source: settings.source,
    children: records.length,
    curves,
    horizonsYears: [...horizonsYears],
    spread: Object.fromEntries(
      baselineMethods.map((method) => [
        method,
        Object.fromEntries(
          Object.keys(curves).map((measure) => [
            measure,
            Object.fromEntries(
              (['clean', 'clinic'] as const).map((noise) => [
                noise,
                spreads(scored[noise].filter((s) => s.method === method && s.measure === measure)),
              ]),
            ),
          ]),
        ),
      ]),
    ),
  };
}

/** Error of the forecasts from an age so far ahead, and of those from a year younger or older; NaN where there are none. */
function rootMeanSquare(
  byAge: ReadonlyMap<number, readonly ScoredForecast[]>,
  age: number,
  horizon: number,
): number {
  let weights = 0;
  let squares = 0;
  for (const [other, rows] of byAge) {
    const beside = Math.abs(other - age) === 1 ? NEIGHBOUR_WEIGHT : 0;
    const weight = other === age ? 1 : beside;
    for (const s of rows) {
      if (weight === 0 || s.horizonYears !== horizon) continue;
      weights += weight;
      squares += weight * s.errorMm ** 2;
    }
  }
  return weights === 0 ? Number.NaN : rounded(Math.sqrt(squares / weights), 2);
}

function spreads(scored: readonly ScoredForecast[]) {
  const one = (sex: 'male' | 'female') => {
    const ofSex = scored.filter((s) => s.sex === sex);
    const byAge = groupBy(ofSex, (s) => Math.round(s.ageYears));
    const ageYears = [...byAge.keys()].sort((a, b) => a - b);
    // An age without any forecast two years ahead takes the longest horizon it has.
    const row = (age: number) => {
      let longest = Number.NaN;
      return horizonsYears.map((h) => {
        const sd = rootMeanSquare(byAge, age, h);
        if (!Number.isNaN(sd)) longest = sd;
        return longest;
      });
    };
    return { ageYears, sdMm: ageYears.map(row) };
  };
  return { male: one('male'), female: one('female') };
}
