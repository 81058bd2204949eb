import { dayNumber, type IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { type CastQuestion, growthFromCast } from './growth-from-cast.js';

/**
 * Allowance a device cast on `castDate` needs so that, with the given odds (0..1), none of the series outgrows it before
 * `until`: the odds' quantile of the most growth since the cast, over all series of one future, mm.
 */
export function allowanceToLast(question: CastQuestion, until: IsoDate, odds: number): number {
  const untilDay = dayNumber(until);
  const { days, paths } = growthFromCast(question, untilDay);
  const width = days.length;
  // Between two days a path is straight.
  const next = days.findIndex((day) => day >= untilDay);
  const share = (untilDay - days[next - 1]) / (days[next] - days[next - 1]);
  const most = new Float64Array(question.draws);
  for (const s of question.series) {
    const path = paths.get(seriesKey(s)) ?? [];
    for (let i = 0; i < question.draws; i++) {
      const at = (j: number) => path[i * width + j] - path[i * width];
      for (let j = 1; j < next; j++) most[i] = Math.max(most[i], at(j));
      most[i] = Math.max(most[i], (1 - share) * at(next - 1) + share * at(next));
    }
  }
  most.sort();
  return most[Math.min(most.length - 1, Math.max(0, Math.ceil(odds * most.length) - 1))];
}
