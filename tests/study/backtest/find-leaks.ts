import type { Noise } from '../../../src/study/backtest/clinic-noise.js';
import type { Forecaster } from '../../../src/study/backtest/forecaster.js';
import type { GrowthRecord } from '../../../src/study/backtest/growth-record.js';
import { horizonsYears, origins } from '../../../src/study/backtest/run-forecasts.js';

type ForecastersFor = (record: GrowthRecord) => readonly Forecaster[];

/** All a method says at one origin, to the last bit. */
function everythingSaid(
  forecaster: Forecaster,
  record: GrowthRecord,
  wholeAge: number,
  noise: Noise,
): string {
  const origin = origins(record, noise, 1).find((o) => o.wholeAge === wholeAge);
  if (origin === undefined) throw new Error(`no forecast at ${wholeAge}`);
  const forecast = forecaster.forecast(origin.known);
  const now = origin.known.visits[origin.known.visits.length - 1];
  const measures = (['stature', 'leg_length'] as const).filter((m) => now.sizes[m] !== undefined);
  return JSON.stringify(
    measures.map((measure) => [
      forecast
        .at(measure, horizonsYears)
        .map((p) => [p.pointMm, ...[0.05, 0.1, 0.5, 0.9, 0.95].map((q) => p.quantile(q))]),
      String(forecast.daysUntilGrown(measure, 15)),
    ]),
  );
}

/** The record with every row after an age made nonsense: rows doubled, moved and dropped. */
function withoutItsFuture(record: GrowthRecord, age: number): GrowthRecord {
  const past = record.visits.filter((v) => v.ageYears <= age);
  const future = record.visits
    .filter((v) => v.ageYears > age)
    .map((v, i) => ({
      ageYears: v.ageYears,
      sizes: { stature: 1900 - 7 * i, leg_length: 300 + 31 * i, weight: 90 },
    }));
  return { ...record, visits: [...past, ...future] };
}

/** Methods and ages at which a forecast changes when only the child's future changes: each one is a leak. */
export function findLeaks(
  record: GrowthRecord,
  forecastersFor: ForecastersFor,
  ages: readonly number[],
  noise: Noise = 'clinic',
): { method: string; age: number }[] {
  return ages.flatMap((age) => {
    const changed = withoutItsFuture(record, age);
    const before = forecastersFor(record);
    const after = forecastersFor(changed);
    return before.flatMap((forecaster, i) => {
      const said = everythingSaid(forecaster, record, age, noise);
      const saidAfter = everythingSaid(after[i], changed, age, noise);
      return said === saidAfter ? [] : [{ method: forecaster.method, age }];
    });
  });
}
