import { type MeasureId, measures } from '../../records/measure.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainDate, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { historyOf, type Visit } from './history-of.js';

const SIDED: readonly MeasureId[] = ['foot_length', 'knee_height', 'hip_height', 'asis_height', 'leg_length'];
/** A drift under this is not worth a note, mm (common practice, no source). */
const WORTH_A_NOTE_MM = 5;

/**
 * One side only: the difference left - right changed by more than the combined detectable change of four readings,
 * 1.96 times the root of their summed squared errors. With one-sided conditions a smaller drift is noted as such.
 */
export function sideDriftFlags(input: FlagInput): Flag[] {
  const { child } = input.record;
  const watched =
    child.affectedSide === 'left' ||
    child.affectedSide === 'right' ||
    child.conditions.some((c) => c === 'hemiplegia' || c === 'leg-length-difference');
  return SIDED.flatMap((measure) => {
    const both = historyOf(input, [measure]);
    const left = both.find((h) => h.series.side === 'left')?.visits ?? [];
    const right = both.find((h) => h.series.side === 'right')?.visits ?? [];
    const pairs = left.flatMap((l) => {
      const r = right.find((v) => v.date === l.date);
      return r ? [{ l, r }] : [];
    });
    if (pairs.length < 2) return [];
    const first = pairs[0];
    const last = pairs[pairs.length - 1];
    const gap = (p: { l: Visit; r: Visit }) => p.l.value - p.r.value;
    const change = gap(last) - gap(first);
    const mdc = 1.96 * Math.hypot(first.l.error, first.r.error, last.l.error, last.r.error);
    const beyond = Math.abs(change) > mdc;
    if (!beyond && !(watched && Math.abs(change) >= WORTH_A_NOTE_MM)) return [];
    const label = measures[measure].label.toLowerCase();
    const seen = `${label}, left less right: ${wholeMm(gap(first))} on ${plainDate(first.l.date)}, ${wholeMm(gap(last))} on ${plainDate(last.l.date)}; a change of ${wholeMm(Math.abs(change))} against a detectable change of ${wholeMm(mdc)}.`;
    const id = `side-drift-${measure}`;
    return [
      beyond
        ? flag(input, id, 'check', cautions.oneSide, seen)
        : flag(input, id, 'note', cautions.gapWithinError, seen),
    ];
  });
}
