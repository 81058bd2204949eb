import { dayNumber, type IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { type CastQuestion, growthFromCast } from './growth-from-cast.js';

/**
 * Allowance a device cast on `castDate` needs so that, with the given odds (0..1), none of the series outgrows it before
 * `until`: the odds' quantile of the most growth since the cast, over all series of one future, mm.
 */
export function allowanceToLast(question: CastQuestion, until: IsoDate, odds: number): number {
  const { days, paths } = growthFromCast(question, dayNumber(until));
  const most = new Float64Array(question.draws);
  for (const s of question.series) {
    const path = paths.get(seriesKey(s)) ?? [];
    for (let i = 0; i < question.draws; i++)
      for (let j = 1; j < days.length; j++)
        most[i] = Math.max(most[i], path[i * days.length + j] - path[i * days.length]);
  }
  most.sort();
  return most[Math.min(most.length - 1, Math.max(0, Math.ceil(odds * most.length) - 1))];
}
