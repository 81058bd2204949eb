import { BONE_AGE_SD_YEARS } from '../../growth/child/marker-evidence.js';
import { decimalAgeYears } from '../../records/age.js';
import { dayNumber } from '../../records/dates.js';
import { seriesKey, technicalErrorAt } from '../../records/measure.js';
import { floatsOf } from '../../statistics/floats-of.js';
import type { DeviceForecast } from '../contract.js';
import type { Futures } from '../futures.js';
import type { DeviceQuestion } from './device-question.js';
import { inDayOrder, readingWorth } from './reading-worth.js';
import { sizesOn } from './sizes-on.js';

type Question = Pick<DeviceQuestion, 'plan' | 'posterior' | 'record' | 'today'>;

/** What one more reading today of each dimension would narrow the dates to. */
export function worthOfReadings(
  { plan: { limits }, record, today }: Question,
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

/** Ages at which a marker of maturity can be read and tells something of the months ahead, years; common practice, no source. */
const MARKER_AGES = { from: 8, to: 17 };

/** What one marker of maturity, as exact as a bone age, would narrow the dates to. */
export function worthOfMarker(
  { posterior, record, today }: Question,
  futures: Futures,
  days: Float64Array,
): DeviceForecast['markerWorth'] {
  const age = decimalAgeYears(record.child.birthDate, today);
  if (age < MARKER_AGES.from || age > MARKER_AGES.to) return null;
  const some = everySoMany(days.length);
  const dayOf = floatsOf(some, (i) => days[i]);
  const all = posterior.tempoOfDraws(futures.draws);
  const tempo = floatsOf(some, (i) => all[i]);
  const { nowDays, thenDays } = readingWorth(inDayOrder(dayOf), tempo, BONE_AGE_SD_YEARS);
  return { nowDays: Math.round(nowDays), thenDays: Math.round(thenDays) };
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
