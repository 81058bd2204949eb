import type { ChildRecord } from '../records/caseload.js';
import type { Measurement } from '../records/records.js';
import { groupBy } from '../statistics/group-by.js';
import type { DataSuggestion, DeviceForecast, ReadingNeeded } from './contract.js';
import { isSlip } from './device/reading-needed.js';
import { plainDate } from './words.js';

/** Each is one more look at the child: more than these questions at once are answered by measuring. */
const MOST_LOOKS = 4;
const UNANSWERED: readonly ReadingNeeded['why'][] = ['slip-unanswered', 'growth-sprang'];

export const isUnanswered = ({ readingNeeded }: DeviceForecast): boolean =>
  readingNeeded !== null && readingNeeded !== undefined && UNANSWERED.includes(readingNeeded.why);

/** Readings that somebody is asked about, those of one measure and day together, newest first. */
export function readingsInQuestion(
  { measurements }: ChildRecord,
  suggestions: readonly DataSuggestion[],
): (readonly Measurement[])[] {
  const ids = new Set(suggestions.filter(isSlip).flatMap((s) => s.measurementIds));
  const asked = measurements.filter((m) => ids.has(m.id));
  return [...groupBy(asked, (m) => `${m.date}/${m.measure}`).entries()]
    .sort(([a], [b]) => b.localeCompare(a))
    .slice(0, MOST_LOOKS)
    .map(([, readings]) => readings);
}

/**
 * A reading in doubt must not put a date off: of what follows with it and without, the earlier date stands until somebody
 * has answered.
 */
export function earlierOf(
  asRead: DeviceForecast,
  without: DeviceForecast,
  readings: readonly Measurement[],
): DeviceForecast {
  if (without.p50 === null || (asRead.p50 !== null && asRead.p50 <= without.p50)) return asRead;
  return {
    ...without,
    readingNeeded: asRead.readingNeeded,
    explanation: `${without.explanation} That is without the reading of ${plainDate(readings[0].date)}, which is in question; with it the date would be later.`,
  };
}
