import { DAYS_A_YEAR } from '../../records/dates.js';
import { type Lms, lmsSizeAtZ, lmsZScore } from '../../statistics/lms.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';
import { type Forecaster, firstCrossingDays } from './forecaster.js';
import type { BacktestMeasure, Known } from './growth-record.js';

/** L, M (mm), S of a measure; what a reference or a cohort's mean and SD curve answers. */
export type SizeCurve = (measure: BacktestMeasure, sex: 'male' | 'female', ageYears: number) => Lms;

/** The SD a baseline's forecast errors had in the training half, mm. */
export type SpreadCurve = (
  method: BaselineMethod,
  measure: BacktestMeasure,
  sex: 'male' | 'female',
  ageYears: number,
  aheadYears: number,
) => number;

export const baselineMethods = [
  'last-velocity',
  'published-increment',
  'published-centile',
  'own-reference-centile',
  'cohort-centile',
] as const;
export type BaselineMethod = (typeof baselineMethods)[number];

export interface BaselineCurves {
  /** Leg length UK 1990, stature CDC 2000. */
  readonly published: SizeCurve;
  readonly own: SizeCurve;
  readonly cohort: SizeCurve;
}

/** A point forecast of one size some years ahead, mm. */
export type PointRule = (known: Known, measure: BacktestMeasure, aheadYears: number) => number;

const last = (known: Known) => known.visits[known.visits.length - 1];

const stayOn =
  (curve: SizeCurve): PointRule =>
  (known, measure, aheadYears) => {
    const { ageYears, sizes } = last(known);
    const z = lmsZScore(curve(measure, known.sex, ageYears), sizes[measure]!);
    return lmsSizeAtZ(curve(measure, known.sex, ageYears + aheadYears), z);
  };

export function baselineRules(curves: BaselineCurves): Readonly<Record<BaselineMethod, PointRule>> {
  const increment: PointRule = (known, measure, aheadYears) => {
    const { ageYears, sizes } = last(known);
    const median = (age: number) => curves.published(measure, known.sex, age).m;
    return sizes[measure]! + median(ageYears + aheadYears) - median(ageYears);
  };
  return {
    // The rate between the last two readings goes on; with one reading there is none, and the published
    // increment stands in, so that every method makes the same forecasts.
    'last-velocity': (known, measure, aheadYears) => {
      const read = known.visits.filter((v) => v.sizes[measure] !== undefined);
      if (read.length < 2) return increment(known, measure, aheadYears);
      const [a, b] = read.slice(-2);
      const rate = (b.sizes[measure]! - a.sizes[measure]!) / (b.ageYears - a.ageYears);
      return b.sizes[measure]! + rate * aheadYears;
    },
    'published-increment': increment,
    'published-centile': stayOn(curves.published),
    'own-reference-centile': stayOn(curves.own),
    'cohort-centile': stayOn(curves.cohort),
  };
}

/** With one reading there is no velocity: the published increment is what is used, so its SD too. */
const inForce = (method: BaselineMethod, known: Known, measure: BacktestMeasure): BaselineMethod =>
  method === 'last-velocity' && known.visits.filter((v) => v.sizes[measure] !== undefined).length < 2
    ? 'published-increment'
    : method;

/** A baseline as a forecaster: its point rule with a normal error of the SD it had in the training half. */
export function baselineForecaster(method: BaselineMethod, rule: PointRule, spread: SpreadCurve): Forecaster {
  return {
    method,
    forecast: (known) => ({
      at: (measure, aheadYears) =>
        aheadYears.map((ahead) => {
          const pointMm = rule(known, measure, ahead);
          const sd = spread(inForce(method, known, measure), measure, known.sex, last(known).ageYears, ahead);
          return { pointMm, quantile: (p) => pointMm + sd * normalQuantile(p) };
        }),
      daysUntilGrown: (measure, allowanceMm) => {
        const now = rule(known, measure, 0);
        return firstCrossingDays((days) => rule(known, measure, days / DAYS_A_YEAR) - now, allowanceMm);
      },
    }),
  };
}
