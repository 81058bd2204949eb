import { decimalAgeYears } from '../../records/age.js';
import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import { type MeasureId, type Series, seriesKey, technicalErrorAt } from '../../records/measure.js';
import { groupBy } from '../../statistics/group-by.js';
import type { FlagInput } from './flag-input.js';

/** One visit's reading of a series (the mean of that day's repeats), with its z-score where a reference reaches. */
export interface Visit {
  readonly date: IsoDate;
  readonly day: DayNumber;
  readonly ageYears: number;
  readonly value: number;
  /** SD of the reading's error, in the measure's unit and in z. */
  readonly error: number;
  readonly z: number | null;
  readonly zError: number;
}

export interface SeriesHistory {
  readonly series: Series;
  /** By date. */
  readonly visits: readonly Visit[];
}

/** Every series of the chosen measures by visit. */
export function historyOf(
  { record, posterior }: Pick<FlagInput, 'record' | 'posterior'>,
  measures: readonly MeasureId[],
): SeriesHistory[] {
  const rows = record.measurements.filter((m) => measures.includes(m.measure));
  return [...groupBy(rows, (m) => seriesKey(m)).values()].map((own) => {
    const series = { measure: own[0].measure, side: own[0].side };
    const visits = [...groupBy(own, (m) => m.date)].map(([date, repeats]): Visit => {
      const day = dayNumber(date);
      const ageYears = decimalAgeYears(record.child.birthDate, date);
      const value = repeats.reduce((sum, m) => sum + m.value, 0) / repeats.length;
      const single = repeats[0].technicalError ?? technicalErrorAt(series.measure, ageYears);
      const error = single / Math.sqrt(repeats.length);
      const z = posterior?.zScore(series, day, value) ?? null;
      const above = posterior?.zScore(series, day, value + error) ?? null;
      return { date, day, ageYears, value, error, z, zError: z !== null && above !== null ? above - z : 0 };
    });
    return { series, visits: visits.sort((a, b) => a.day - b.day) };
  });
}

/** Smallest difference of two readings that is not measuring error at 95 %. */
export const detectable = (a: number, b: number): number => 1.96 * Math.hypot(a, b);
