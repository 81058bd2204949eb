import type { ChildRecord } from '../devices/caseload.js';
import type { ChildPosterior } from '../growth/contract.js';
import { measures } from '../measurements/measure.js';
import type { DataSuggestion } from './contract.js';
import { duplicateSuggestions } from './suggestions/duplicates.js';
import { impossiblePairSuggestions } from './suggestions/impossible-pairs.js';
import { limitBelowSizeSuggestions } from './suggestions/limit-below-size.js';
import { shrinkingBoneSuggestions } from './suggestions/shrinking-bone.js';
import { impossibleSizeSuggestions, slipSuggestions } from './suggestions/slips.js';
import { swappedSideSuggestions } from './suggestions/swapped-sides.js';
import { plainDate, plainSeries } from './words.js';

/** The growth model holds a reading for a gross error with at least this probability. */
const GROSS = 0.9;

/**
 * Likely slips in a child's data, each with the correction a person may accept. A reading is explained once, by the
 * first of: unit or digit slip, swapped sides, impossible pair, shrinking bone, the growth model's own suspicion.
 */
export function findSuggestions(record: ChildRecord, posterior: ChildPosterior | null): DataSuggestion[] {
  const explained = new Set<string>();
  const found: DataSuggestion[] = [];
  const add = (suggestions: readonly DataSuggestion[]) => {
    for (const s of suggestions) {
      if (s.kind !== 'duplicate' && s.kind !== 'limit-below-size') {
        if (s.measurementIds.some((id) => explained.has(id))) continue;
        for (const id of s.measurementIds) explained.add(id);
      }
      found.push(s);
    }
  };
  add(slipSuggestions(record));
  add(impossibleSizeSuggestions(record));
  add(swappedSideSuggestions(record));
  add(impossiblePairSuggestions(record));
  add(shrinkingBoneSuggestions(record));
  add(modelSuspicions(record, posterior));
  add(duplicateSuggestions(record));
  add(limitBelowSizeSuggestions(record));
  return found;
}

function modelSuspicions(record: ChildRecord, posterior: ChildPosterior | null): DataSuggestion[] {
  return (posterior?.suspicions ?? []).flatMap((s): DataSuggestion[] => {
    const m = record.measurements.find((x) => x.id === s.measurementId);
    // Fast head growth looks like a slip and must never be explained away: it has a flag of its own.
    if (!m || s.probability < GROSS || m.measure === 'head_circumference') return [];
    const { unit } = measures[m.measure];
    return [
      {
        id: `digit-slip-${m.id}`,
        childId: record.child.id,
        kind: 'digit-slip',
        measurementIds: [m.id],
        deviceId: null,
        seen: `${plainSeries(m)} of ${plainDate(m.date)} is ${m.value} ${unit}; ${Math.round(s.expected)} ± ${Math.round(2 * s.expectedSd)} ${unit} was expected from everything else.`,
        corrections: [],
        action: 'Look up what was written down, or measure again.',
      },
    ];
  });
}
