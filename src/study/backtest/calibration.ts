import { groupBy } from '../../statistics/group-by.js';
import { rounded } from '../../statistics/rounded.js';
import type { ScoredForecast } from './run-forecasts.js';
import { cells, seByChild } from './summarise.js';

const BINS = 10;
const nominal = [0.5, 0.8, 0.9, 0.95] as const;

/** Do the odds mean what they say? One line an age band, horizon, measure and method. */
export interface CalibrationRow {
  readonly measure: string;
  readonly ageBand: string;
  readonly horizonYears: number;
  readonly method: string;
  readonly n: number;
  /** Forecasts whose truth fell in each tenth of the predictive distribution; even when calibrated. */
  readonly pitCounts: readonly number[];
  /** Share of truths inside the central band of each level, with its standard error by child. */
  readonly coverage: readonly {
    readonly level: number;
    readonly share: number;
    readonly seByChild: number;
  }[];
}

export function calibration(scored: readonly ScoredForecast[], methods: readonly string[]): CalibrationRow[] {
  const kept = scored.filter((s) => methods.includes(s.method));
  return cells(kept)
    .filter(({ key }) => key.sex === 'all')
    .flatMap(({ key: { measure, ageBand, horizonYears }, forecasts }) =>
      [...groupBy(forecasts, (s) => s.method)].map(([method, rows]) => {
        const pitCounts = new Array<number>(BINS).fill(0);
        for (const s of rows) pitCounts[Math.min(BINS - 1, Math.floor(s.pit * BINS))]++;
        const coverage = nominal.map((level) => {
          const inside = (s: ScoredForecast) => Number(Math.abs(s.pit - 0.5) <= level / 2);
          const share = rows.reduce((sum, s) => sum + inside(s), 0) / rows.length;
          return { level, share: rounded(share), seByChild: rounded(seByChild(rows, inside)) };
        });
        return { measure, ageBand, horizonYears, method, n: rows.length, pitCounts, coverage };
      }),
    );
}

/** Windows of years from peak height velocity. */
const windows = [
  { name: '<-2', from: -Infinity, to: -2 },
  { name: '-2..0', from: -2, to: 0 },
  { name: '0..2', from: 0, to: 2 },
  { name: '>2', from: 2, to: Infinity },
] as const;

/** Coverage of the 80 % band by years from the child's own peak height velocity at the forecast. */
export interface MaturityWindowRow {
  readonly measure: string;
  readonly window: string;
  readonly horizonYears: number;
  readonly method: string;
  readonly n: number;
  readonly coverage80: number;
  readonly coverage80SeByChild: number;
  readonly maeCm: number;
}

/** Forecasts from ages 9 to 15, as the goals count them. */
export function maturityWindows(
  scored: readonly ScoredForecast[],
  methods: readonly string[],
): MaturityWindowRow[] {
  const kept = cells(scored.filter((s) => methods.includes(s.method) && s.yearsFromPeak !== null)).filter(
    ({ key }) => key.sex === 'all' && key.ageBand === '9-15',
  );
  return kept.flatMap(({ key: { measure, horizonYears }, forecasts }) =>
    windows.flatMap(({ name, from, to }) => {
      const inWindow = forecasts.filter((s) => s.yearsFromPeak! >= from && s.yearsFromPeak! < to);
      return [...groupBy(inWindow, (s) => s.method)].map(([method, rows]) => ({
        measure,
        window: name,
        horizonYears,
        method,
        n: rows.length,
        coverage80: rounded(rows.reduce((sum, s) => sum + Number(s.in80), 0) / rows.length),
        coverage80SeByChild: rounded(seByChild(rows, (s) => Number(s.in80))),
        maeCm: rounded(rows.reduce((sum, s) => sum + Math.abs(s.errorMm), 0) / rows.length / 10),
      }));
    }),
  );
}
