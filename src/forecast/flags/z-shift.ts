import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainSeries, plainSpan } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { detectable, historyOf } from './history-of.js';

/** A move of one z-score unit after repeat asks for a look (common practice, no source). */
const SHIFT = 1;
const WITHIN_DAYS = 1100;

/**
 * A length that falls or rises by more than one SD against the reference and beyond measuring error.
 * Below two years moving across centiles is common, so it is only a note there.
 */
export function zShiftFlags(input: FlagInput): Flag[] {
  const histories = historyOf(input, [
    'stature',
    'foot_length',
    'knee_height',
    'hip_height',
    'leg_length',
    'sitting_height',
  ]);
  return histories.flatMap(({ series, visits }) => {
    const last = visits.at(-1);
    if (!last || last.z === null) return [];
    const before = visits.filter(
      (v) => v.z !== null && v.day <= last.day - 120 && v.day >= last.day - WITHIN_DAYS,
    );
    const first = before[0];
    if (!first) return [];
    const shift = last.z - first.z!;
    if (Math.abs(shift) < Math.max(SHIFT, detectable(last.zError, first.zError))) return [];
    const severity = last.ageYears < 2 ? 'note' : 'check';
    const zShift = shift < 0 ? 'falling' : 'rising';
    const text = shift < 0 ? cautions.fallingZ : cautions.risingZ;
    const seen = `${plainSeries(series)} ${shift < 0 ? 'fell' : 'rose'} by ${Math.abs(shift).toFixed(1)} SD against the reference in ${plainSpan(last.day - first.day)}.`;
    const id = `${zShift}-z-${series.measure}-${series.side}`;
    return [{ ...flag(input, id, severity, text, seen, { series }), zShift }];
  });
}
