import type { ChildPosterior } from '../../growth/contract.js';
import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import { type MeasureId, type Series, seriesKey } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { sampleFutures } from '../futures.js';

/**
 * The question's setting: a device cast on `castDate`, judged on `series` (both sides of a frame together). `measurements` are
 * the child's own, which a measure without a curve takes its proportion from.
 */
export interface CastQuestion {
  readonly posterior: ChildPosterior;
  readonly model: { readonly measures: readonly MeasureId[] };
  readonly measurements: readonly Measurement[];
  readonly series: readonly Series[];
  readonly castDate: IsoDate;
  readonly draws: number;
  readonly seed: number;
}

const STEP_DAYS = 28;
/** So far ahead how long a room lasts is looked for. */
export const HORIZON_DAYS = 1826;

export interface GrowthFromCast {
  /** First is the cast. */
  readonly days: readonly DayNumber[];
  /** By seriesKey: draws x days.length, row-major by draw, mm; a series that cannot be followed has none. */
  readonly paths: ReadonlyMap<string, Float64Array>;
}

const known = new WeakMap<ChildPosterior, Map<string, GrowthFromCast>>();
const MOST_KNOWN = 24;

/** Joint paths from the cast to the horizon or `day`, kept while the child's posterior is: all odds and sliders ask for the same. */
export function growthFromCast(question: CastQuestion, day: DayNumber = 0): GrowthFromCast {
  const { posterior, series, castDate, draws, seed } = question;
  const untilDay = Math.max(day, dayNumber(castDate) + HORIZON_DAYS);
  const all = known.get(posterior) ?? new Map<string, GrowthFromCast>();
  known.set(posterior, all);
  const key = JSON.stringify([series.map(seriesKey), castDate, draws, seed, untilDay]);
  const growth = all.get(key) ?? drawn(question, untilDay);
  if (all.size < MOST_KNOWN) all.set(key, growth);
  return growth;
}

function drawn(question: CastQuestion, untilDay: DayNumber): GrowthFromCast {
  const days = [dayNumber(question.castDate)];
  while (days[days.length - 1] + STEP_DAYS < untilDay) days.push(days[days.length - 1] + STEP_DAYS);
  days.push(untilDay);
  return { days, paths: sampleCast(question, days) };
}

/** Joint paths of every series of the question that can be followed. */
export function sampleCast(
  { posterior, model, series, draws, seed, measurements }: CastQuestion,
  days: readonly DayNumber[],
): ReadonlyMap<string, Float64Array> {
  return sampleFutures(posterior, model, series, days, draws, seed, measurements).paths;
}

/** Whether anything can be said: every series has a curve, or a reading of its own beside one that has. */
export const canAnswer = (question: CastQuestion): boolean => {
  const { paths } = growthFromCast(question);
  return question.series.every((s) => paths.has(seriesKey(s)));
};
