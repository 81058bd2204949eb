import { decimalAgeYears } from '../../records/age.js';
import { dayNumber } from '../../records/dates.js';
import { seriesKey, technicalErrorAt } from '../../records/measure.js';
import { floatsOf } from '../../statistics/floats-of.js';
import type { DeviceForecast } from '../contract.js';
import type { Futures } from '../futures.js';
import type { DeviceQuestion } from './device-question.js';
import { inDayOrder, readingWorth } from './reading-worth.js';
import { sizesOn } from './sizes-on.js';

/** What one more reading today of each dimension would narrow the dates to. */
export function worthOfReadings(
  { plan: { limits }, record, today }: DeviceQuestion,
  futures: Futures,
  days: Float64Array,
): NonNullable<DeviceForecast['readingWorth']> {
  const some = everySoMany(days.length);
  const dayOf = floatsOf(some, (i) => days[i]);
  const outgrown = inDayOrder(dayOf);
  const age = decimalAgeYears(record.child.birthDate, today);
  return limits
    .flatMap(({ series }) => {
      const path = futures.paths.get(seriesKey(series));
      if (!path) return [];
      const all = sizesOn(futures, path, dayNumber(today));
      const sizes = floatsOf(some, (i) => all[i]);
      const error = technicalErrorAt(series.measure, age);
      const { nowDays, thenDays } = readingWorth(outgrown, sizes, error);
      return [{ series, nowDays: Math.round(nowDays), thenDays: Math.round(thenDays) }];
    })
    .sort((a, b) => a.thenDays - b.thenDays);
}

/**
 * A width of months is told well enough from so many draws. Not a power of two: the draws are quasi-random, and every 8th
 * of 512 has the same last digits and so lies on one side (64 of them told half of what a reading is worth).
 */
const WORTH_DRAWS = 96;
/** Draws evenly taken from all of them. */
const everySoMany = (draws: number): number[] =>
  Array.from({ length: Math.min(draws, WORTH_DRAWS) }, (_, k) =>
    Math.floor((k * draws) / Math.min(draws, WORTH_DRAWS)),
  );
