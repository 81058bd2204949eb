import { median } from 'simple-statistics';
import { DAYS_A_YEAR } from '../../records/dates.js';
import { groupBy } from '../../statistics/group-by.js';
import { rounded } from '../../statistics/rounded.js';
import { type Forecaster, firstCrossingDays, HORIZON_DAYS } from './forecaster.js';
import type { GrowthRecord } from './growth-record.js';
import { type ForecastSettings, origins } from './run-forecasts.js';
import { trueCurve } from './true-curve.js';

export const allowancesMm: readonly number[] = [10, 15, 20];
const AGES = { from: 9, to: 15 } as const;

/** How near the median outgrown date came, per method and allowance. */
export interface DateRow {
  readonly measure: 'leg_length';
  readonly allowanceMm: number;
  readonly history: number;
  readonly noise: string;
  readonly method: string;
  /** Forecasts whose true date lies inside the record and the 30-month horizon. */
  readonly n: number;
  readonly medianAbsoluteErrorDays: number;
  /** Mean of forecast less truth, a forecast beyond the horizon counted at it. */
  readonly biasDays: number;
}

/**
 * A device cast at each birthday from 9 to 15: when does leg length exceed its size at the cast by more than
 * the allowance? The truth is read from the clean record, interpolated monotone.
 */
export function outgrownDates(
  records: readonly GrowthRecord[],
  forecastersFor: (record: GrowthRecord, noiseSeed: number) => readonly Forecaster[],
  settings: ForecastSettings,
): DateRow[] {
  const misses: { method: string; allowanceMm: number; days: number }[] = [];
  records.forEach((record, done) => {
    const curve = trueCurve(record, 'leg_length');
    settings.progress?.(done + 1, records.length);
    if (curve === null) return;
    const forecasters = forecastersFor(record, settings.seed);
    for (const { wholeAge, known } of origins(record, settings.noise, settings.seed, settings.history)) {
      const now = known.visits[known.visits.length - 1];
      if (wholeAge < AGES.from || wholeAge > AGES.to || now.sizes.leg_length === undefined) continue;
      const grown = (days: number) => curve.at(now.ageYears + days / DAYS_A_YEAR) - curve.at(now.ageYears);
      const truths = allowancesMm
        .map((allowanceMm) => ({ allowanceMm, days: firstCrossingDays(grown, allowanceMm) }))
        .filter(({ days }) => Number.isFinite(days));
      if (truths.length === 0) continue;
      for (const forecaster of forecasters) {
        const forecast = forecaster.forecast(known);
        for (const { allowanceMm, days } of truths) {
          const said = Math.min(forecast.daysUntilGrown('leg_length', allowanceMm), HORIZON_DAYS);
          misses.push({ method: forecaster.method, allowanceMm, days: said - days });
        }
      }
    }
  });
  return [...groupBy(misses, (m) => `${m.method}|${m.allowanceMm}`).values()].map((rows) => ({
    measure: 'leg_length',
    allowanceMm: rows[0].allowanceMm,
    history: settings.history,
    noise: settings.noise,
    method: rows[0].method,
    n: rows.length,
    medianAbsoluteErrorDays: rounded(median(rows.map((r) => Math.abs(r.days))), 1),
    biasDays: rounded(rows.reduce((sum, r) => sum + r.days, 0) / rows.length, 1),
  }));
}
