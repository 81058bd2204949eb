import { dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import { dayOfChance } from '../device/chance-by-day.js';
import { firstPassage, passageChance } from '../device/first-passage.js';
import { type CastQuestion, growthFromCast, HORIZON_DAYS } from './growth-from-cast.js';

export interface AllowanceLife {
  readonly allowanceMm: number;
  /** Dates by which the chance of being outgrown reaches 10, 50, 90 %; null past the horizon. */
  readonly p10: IsoDate | null;
  readonly p50: IsoDate | null;
  readonly p90: IsoDate | null;
}

/** How long each of several allowances would last from a cast on `castDate`, up to five years ahead. */
export function lifeOfAllowances(question: CastQuestion, allowancesMm: readonly number[]): AllowanceLife[] {
  const cast = dayNumber(question.castDate);
  const { days, paths } = growthFromCast(question);
  const search: number[] = [];
  for (let d = cast; d <= cast + HORIZON_DAYS; d += 7) search.push(d);
  return allowancesMm.map((allowanceMm) => {
    const limitMm = new Float64Array(search.length).fill(allowanceMm);
    const limits = question.series.flatMap((s) => {
      const path = paths.get(seriesKey(s));
      return path ? [{ path, castIndex: 0, limitMm }] : [];
    });
    const chance = passageChance(firstPassage(days, search, limits, question.draws), search.length);
    const at = (p: number) => {
      const day = dayOfChance(search, chance, p);
      return day === null ? null : isoDate(day);
    };
    return { allowanceMm, p10: at(0.1), p50: at(0.5), p90: at(0.9) };
  });
}
