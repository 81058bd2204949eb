import type { ChildPosterior } from '../../growth/contract.js';
import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import { type Series, seriesKey } from '../../records/measure.js';

/** The question's setting: a device cast on `castDate`, judged on `series` (both sides of a frame together). */
export interface CastQuestion {
  readonly posterior: ChildPosterior;
  readonly series: readonly Series[];
  readonly castDate: IsoDate;
  readonly draws: number;
  readonly seed: number;
}

const STEP_DAYS = 28;

export interface GrowthFromCast {
  /** First is the cast. */
  readonly days: readonly DayNumber[];
  /** By series: draws x days.length, row-major by draw, mm. */
  readonly paths: readonly Float64Array[];
}

const known = new WeakMap<ChildPosterior, Map<string, GrowthFromCast>>();
const MOST_KNOWN = 24;

/** Joint paths from the cast to `untilDay`, kept while the child's posterior is: several odds and sliders ask for the same. */
export function growthFromCast(question: CastQuestion, untilDay: DayNumber): GrowthFromCast {
  const { posterior, series, castDate, draws, seed } = question;
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
  if (untilDay > days[0]) days.push(untilDay);
  return { days, paths: question.posterior.sample(question.series, days, question.draws, question.seed) };
}
