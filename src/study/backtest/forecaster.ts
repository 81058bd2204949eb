import type { BacktestMeasure, Known } from './growth-record.js';

/** A predictive distribution of one size, mm. */
export interface Predictive {
  /** The point forecast that is scored: the median. */
  readonly pointMm: number;
  quantile(p: number): number;
}

export interface ChildForecast {
  at(measure: BacktestMeasure, aheadYears: readonly number[]): readonly Predictive[];
  /** Days from the forecast date until growth since then exceeds the allowance (median); Infinity beyond 30 months. */
  daysUntilGrown(measure: BacktestMeasure, allowanceMm: number): number;
  /** Chance that this has happened within so many days; a method that gives a bare date has none. */
  chanceGrown?(measure: BacktestMeasure, allowanceMm: number, days: number): number;
}

/** A method under test. It is given what was known at the forecast's date and nothing else. */
export interface Forecaster {
  readonly method: string;
  forecast(known: Known): ChildForecast;
}

/** Farthest a crossing is looked for, days. */
export const HORIZON_DAYS = 913;

/** First day ahead at which a point curve has grown by more than the allowance, by weekly steps and bisection. */
export function firstCrossingDays(grownMm: (daysAhead: number) => number, allowanceMm: number): number {
  for (let day = 7; day <= HORIZON_DAYS; day += 7) {
    if (grownMm(day) <= allowanceMm) continue;
    let low = day - 7;
    let high = day;
    while (high - low > 0.25) {
      const mid = (low + high) / 2;
      if (grownMm(mid) > allowanceMm) high = mid;
      else low = mid;
    }
    return high;
  }
  return Infinity;
}
