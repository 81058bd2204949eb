import { addDaysIso, dayNumber } from '../../records/dates.js';
import { type Series, seriesKey } from '../../records/measure.js';
import { type CastQuestion, sampleCast } from './growth-from-cast.js';

const MONTH_DAYS = 30.44;

/**
 * Room that a device cast on `castDate` needs in each of its series to last so many months at each of the odds (0..1):
 * the odds' quantile of the most growth since the cast, mm. By series key: odds x months, nothing of a series that cannot be followed. One sampling answers all.
 * `lifts`: a height that a bar further down lifts, as far as its own joint grows and its travel reaches, needs that much less.
 */
export function roomByMonth(
  question: CastQuestion,
  months: readonly number[],
  odds: readonly number[],
  lifts: ReadonlyMap<string, { readonly by: Series; readonly travelMm: number }> = new Map(),
): ReadonlyMap<string, readonly (readonly number[])[]> {
  const { series, castDate, draws } = question;
  const days = [0, ...months].map((m) => dayNumber(addDaysIso(castDate, Math.round(m * MONTH_DAYS))));
  const paths = sampleCast(question, days);
  const width = days.length;
  return new Map(
    series.flatMap((s) => {
      const path = paths.get(seriesKey(s));
      if (!path) return [];
      const lift = lifts.get(seriesKey(s));
      const lower = lift && paths.get(seriesKey(lift.by));
      const grown = (by: Float64Array, i: number, j: number) => by[i * width + j + 1] - by[i * width];
      const lifted = (i: number, j: number) =>
        lift && lower ? Math.min(lift.travelMm, Math.max(0, grown(lower, i, j))) : 0;
      const most = new Float64Array(draws);
      const columns = months.map((_, j) => {
        for (let i = 0; i < draws; i++) most[i] = Math.max(most[i], grown(path, i, j) - lifted(i, j));
        const sorted = most.toSorted();
        return odds.map((p) => sorted[Math.min(draws - 1, Math.max(0, Math.ceil(p * draws) - 1))]);
      });
      return [[seriesKey(s), odds.map((_, p) => columns.map((c) => c[p]))] as const];
    }),
  );
}
