import { median } from 'simple-statistics';
import { DAYS_A_YEAR } from '../../records/dates.js';
import { groupBy } from '../../statistics/group-by.js';
import { rounded } from '../../statistics/rounded.js';
import { type ChildForecast, type Forecaster, firstCrossingDays, HORIZON_DAYS } from './forecaster.js';
import type { GrowthRecord } from './growth-record.js';
import { type ForecastSettings, origins } from './run-forecasts.js';
import { trueCurve } from './true-curve.js';

export const allowancesMm: readonly number[] = [10, 15, 20];
const AGES = { from: 9, to: 15 } as const;

/** How near the median outgrown date came, per method and allowance. */
export type DateRow = ReturnType<typeof outgrownDates>[number];

/**
 * A device cast at each birthday from 9 to 15: when does leg length exceed its size at the cast by more than
 * the allowance? The truth is read from the clean record, interpolated monotone.
 */
export function outgrownDates(
  records: readonly GrowthRecord[],
  forecastersFor: (record: GrowthRecord) => readonly Forecaster[],
  settings: ForecastSettings,
) {
  const misses: Miss[] = [];
  records.forEach((record, done) => {
    const curve = trueCurve(record, 'leg_length');
    settings.progress?.(done + 1, records.length);
    if (curve === null) return;
    const forecasters = forecastersFor(record);
    for (const { wholeAge, known } of origins(record, settings.noise, settings.seed)) {
      const now = known.visits[known.visits.length - 1];
      if (wholeAge < AGES.from || wholeAge > AGES.to || now.sizes.leg_length === undefined) continue;
      const grown = (days: number) => curve.at(now.ageYears + days / DAYS_A_YEAR) - curve.at(now.ageYears);
      const followedDays = Math.min(HORIZON_DAYS, (curve.toAge - now.ageYears) * DAYS_A_YEAR);
      if (followedDays <= 0) continue;
      for (const forecaster of forecasters)
        misses.push(...missesOf(forecaster.method, forecaster.forecast(known), grown, followedDays));
    }
  });
  return [...groupBy(misses, (m) => `${m.method}|${m.allowanceMm}`).values()].flatMap((rows) => {
    const seen = rows.filter((r) => r.seen);
    if (seen.length === 0) return [];
    const least = (r: Miss) => (r.seen ? Math.abs(r.days) : Math.max(0, -r.days));
    return [
      {
        measure: 'leg_length' as const,
        allowanceMm: rows[0].allowanceMm,
        noise: settings.noise,
        method: rows[0].method,
        // Those whose true date lies inside the record and the 30-month horizon.
        n: seen.length,
        medianAbsoluteErrorDays: rounded(median(seen.map((r) => Math.abs(r.days))), 1),
        // Of forecast less truth, a forecast beyond the horizon counted at it.
        biasDays: rounded(seen.reduce((sum, r) => sum + r.days, 0) / seen.length, 1),
        // All devices, and those among them that nobody saw outgrown within record and horizon.
        devices: rows.length,
        censored: rows.length - seen.length,
        // Of all: for one not seen outgrown at least how much too early the forecast was.
        medianLeastErrorDays: rounded(median(rows.map(least)), 1),
        outgrownByDate: outgrownByDate(rows),
      },
    ];
  });
}

/** One forecast against what was seen of the growth, an allowance each. */
const missesOf = (
  method: string,
  forecast: ChildForecast,
  grown: (days: number) => number,
  followedDays: number,
) =>
  allowancesMm.map((allowanceMm) => {
    const crossed = firstCrossingDays(grown, allowanceMm);
    // Else it was followed so far and no farther.
    const seen = crossed <= followedDays;
    const days = seen ? crossed : followedDays;
    const said = Math.min(forecast.daysUntilGrown('leg_length', allowanceMm), HORIZON_DAYS);
    // What the forecast gave to being outgrown by then; the days are forecast less truth, or less the end of following.
    const chance = forecast.chanceGrown?.('leg_length', allowanceMm, days) ?? null;
    return { method, allowanceMm, seen, days: said - days, chance };
  });
type Miss = ReturnType<typeof missesOf>[number];

/**
 * Share of all devices outgrown by the forecast's P10, P50 and P90 dates, those not seen outgrown counted as far as
 * they were followed (Kaplan & Meier 1958, J Am Stat Assoc 53:457): .1, .5 and .9 where the odds are right. The
 * product-limit estimate is over the chances the forecasts gave to what happened.
 */
function outgrownByDate(rows: readonly Miss[]) {
  if (rows.some((r) => r.chance === null)) return null;
  const byChance = [...rows].sort((a, b) => a.chance! - b.chance! || Number(b.seen) - Number(a.seen));
  const upTo = (level: number) => {
    let left = 1;
    byChance.forEach(({ chance, seen }, i) => {
      if (seen && chance! <= level) left *= 1 - 1 / (byChance.length - i);
    });
    return rounded(1 - left);
  };
  return { p10: upTo(0.1), p50: upTo(0.5), p90: upTo(0.9) };
}
