import { addDaysIso, dayNumber } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import type { CastQuestion } from './growth-from-cast.js';

const MONTH_DAYS = 30.44;

/**
 * Room that a device cast on `castDate` needs in each of its series to last so many months at each of the odds (0..1):
 * the odds' quantile of the most growth since the cast, mm. By series key: odds x months. One sampling answers all.
 */
export function roomByMonth(
  { posterior, series, castDate, draws, seed }: CastQuestion,
  months: readonly number[],
  odds: readonly number[],
): ReadonlyMap<string, readonly (readonly number[])[]> {
  const days = [0, ...months].map((m) => dayNumber(addDaysIso(castDate, Math.round(m * MONTH_DAYS))));
  const paths = posterior.sample(series, days, draws, seed);
  const width = days.length;
  return new Map(
    series.map((s, k) => {
      const most = new Float64Array(draws);
      const columns = months.map((_, j) => {
        for (let i = 0; i < draws; i++)
          most[i] = Math.max(most[i], paths[k][i * width + j + 1] - paths[k][i * width]);
        const sorted = most.toSorted();
        return odds.map((p) => sorted[Math.min(draws - 1, Math.max(0, Math.ceil(p * draws) - 1))]);
      });
      return [seriesKey(s), odds.map((_, p) => columns.map((c) => c[p]))];
    }),
  );
}
