import { groupBy } from '../../statistics/group-by.js';
import { rounded } from '../../statistics/rounded.js';
import type { Noise } from './clinic-noise.js';
import { ratioByChild } from './ratio-by-child.js';
import type { ScoredForecast } from './run-forecasts.js';

export type BacktestRow = ReturnType<typeof summarise>[number];

/** Every combination of measure, sex, age band and horizon that has forecasts, 'all' among them. */
function cells(scored: readonly ScoredForecast[]) {
  return [...groupBy(scored, (s) => `${s.measure}|${s.horizonYears}`).values()].flatMap((ofHorizon) =>
    ['all', 'male', 'female'].flatMap((sex) =>
      ageBands.flatMap((band) => {
        const forecasts = ofHorizon.filter(
          (s) =>
            (sex === 'all' || s.sex === sex) && s.ageYears >= band.from - 0.13 && s.ageYears < band.to - 0.13,
        );
        if (forecasts.length === 0) return [];
        const { measure, horizonYears } = forecasts[0];
        return [{ key: { measure, sex, ageBand: band.name, horizonYears }, forecasts }];
      }),
    ),
  );
}

/** The lines of the report. Errors in cm, as the record's own unit. */
export function summarise(scored: readonly ScoredForecast[], { noise }: { readonly noise: Noise }) {
  return cells(scored).flatMap(({ key, forecasts }) =>
    [...groupBy(forecasts, (s) => s.method)].map(([method, rows]) => {
      const mean = (value: (s: ScoredForecast) => number) =>
        rows.reduce((sum, s) => sum + value(s), 0) / rows.length;
      return {
        ...key,
        noise,
        method,
        n: rows.length,
        maeCm: rounded(mean((s) => Math.abs(s.errorMm)) / 10),
        rmseCm: rounded(Math.sqrt(mean((s) => s.errorMm ** 2)) / 10),
        // Of forecast less truth.
        biasCm: rounded(mean((s) => s.errorMm) / 10),
        crpsCm: rounded(mean((s) => s.crpsMm) / 10),
        coverage80: rounded(mean((s) => Number(s.in80))),
        coverage90: rounded(mean((s) => Number(s.in90))),
        // Standard errors count children, not forecasts.
        children: new Set(rows.map((s) => s.childId)).size,
        maeSeByChildCm: rounded(seByChild(rows, (s) => Math.abs(s.errorMm)) / 10),
        coverage80SeByChild: rounded(seByChild(rows, (s) => Number(s.in80))),
        // Of truths read between two rows of the record, not at one.
        interpolatedShare: rounded(mean((s) => Number(!s.recorded))),
      };
    }),
  );
}

/** Standard error of a mean over forecasts, children as the units. */
export const seByChild = (rows: readonly ScoredForecast[], value: (s: ScoredForecast) => number): number =>
  ratioByChild(rows, value).se;

/** Age bands of the report by age at the forecast, years; `to` is excluded. 9-15 takes in the forecasts at 15. */
export const ageBands: readonly { readonly name: string; readonly from: number; readonly to: number }[] = [
  { name: '0-2', from: 0, to: 2 },
  { name: '2-5', from: 2, to: 5 },
  { name: '5-8', from: 5, to: 8 },
  { name: '8-11', from: 8, to: 11 },
  { name: '11-14', from: 11, to: 14 },
  { name: '14-18', from: 14, to: 18 },
  { name: 'below-8', from: 0, to: 8 },
  { name: '9-15', from: 9, to: 15.5 },
  { name: 'all', from: 0, to: 99 },
];
