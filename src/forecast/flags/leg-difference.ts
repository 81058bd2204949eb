import type { MeasureId } from '../../records/measure.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainDate, plainSeries, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { detectable, historyOf } from './history-of.js';

const LEG_LENGTHS: readonly MeasureId[] = ['asis_malleolus_length', 'asis_height', 'hip_height'];

/** Left and right of a leg's length at the last visit that has both: a question for the clinician, its error beside it. */
export function legDifferenceFlags(input: FlagInput): Flag[] {
  const { record, rules } = input;
  const asked =
    record.child.conditions.includes('leg-length-difference') ||
    record.devices.some((d) => d.status === 'worn' && rules.get(d.family)?.region === 'shoe');
  if (!asked) return [];
  for (const measure of LEG_LENGTHS) {
    const both = historyOf(input, [measure]);
    const left = both.find((h) => h.series.side === 'left')?.visits ?? [];
    const right = both.find((h) => h.series.side === 'right')?.visits ?? [];
    const last = left.findLast((l) => right.some((r) => r.date === l.date));
    const other = last && right.find((r) => r.date === last.date);
    if (!last || !other) continue;
    const gap = last.value - other.value;
    const errorMm = detectable(last.error, other.error);
    const shorter = gap < 0 ? 'left' : 'right';
    const size = gap === 0 ? 'no difference' : `the ${shorter} shorter by ${wholeMm(Math.abs(gap))}`;
    const seen = `${plainSeries({ measure, side: 'none' })} on ${plainDate(last.date)}: ${size}; two such readings cannot tell less than ${wholeMm(errorMm)} apart. Is a raise wanted, and how high?`;
    return [flag(input, 'leg-difference', 'note', cautions.raise, seen)];
  }
  return [];
}
