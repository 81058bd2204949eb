import type { ChildPosterior } from '../../growth/contract.js';
import { type DayNumber, dayNumber, type IsoDate } from '../../records/dates.js';
import type { Series } from '../../records/measure.js';

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

/** Joint paths from the cast to `untilDay`. */
export function growthFromCast(question: CastQuestion, untilDay: DayNumber): GrowthFromCast {
  const days = [dayNumber(question.castDate)];
  while (days[days.length - 1] + STEP_DAYS < untilDay) days.push(days[days.length - 1] + STEP_DAYS);
  if (untilDay > days[0]) days.push(untilDay);
  return { days, paths: question.posterior.sample(question.series, days, question.draws, question.seed) };
}
