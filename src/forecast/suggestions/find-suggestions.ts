import type { ChildPosterior } from '../../growth/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { DataSuggestion } from '../contract.js';
import { isSlip } from '../device/reading-needed.js';
import { capital } from '../words.js';
import { duplicateSuggestions } from './duplicates.js';
import { impossiblePairSuggestions } from './impossible-pairs.js';
import { limitBelowSizeSuggestions } from './limit-below-size.js';
import { slipSuggestions } from './slips.js';
import { swappedSideSuggestions } from './swapped-sides.js';
import { unlikelyGrowthSuggestions } from './unlikely-growth.js';

/**
 * Likely slips in a child's data, each with the correction a person may accept. A reading is explained once, by the
 * first of: two values in each other's field, a slip whose cause is seen, swapped sides, impossible pair, shrinking bone, a slip of unseen cause, a jump.
 */
export function findSuggestions(record: ChildRecord, posterior: ChildPosterior | null): DataSuggestion[] {
  const explained = new Set<string>();
  const found: DataSuggestion[] = [];
  const add = (suggestions: readonly DataSuggestion[]) => {
    for (const s of suggestions) {
      if (isSlip(s)) {
        if (s.measurementIds.some((id) => explained.has(id))) continue;
        for (const id of s.measurementIds) explained.add(id);
      }
      found.push({ ...s, seen: capital(s.seen) });
    }
  };
  const slips = slipSuggestions(record, posterior);
  const pairs = impossiblePairSuggestions(record);
  add(pairs.filter((s) => s.corrections.length > 0));
  add(slips.filter((s) => s.corrections.length > 0));
  add(swappedSideSuggestions(record));
  add(pairs);
  const growth = unlikelyGrowthSuggestions(record, posterior);
  add(growth.filter((s) => s.kind === 'shrinking-bone'));
  add(slips.filter((s) => s.corrections.length === 0));
  add(growth);
  add(duplicateSuggestions(record));
  add(limitBelowSizeSuggestions(record));
  return found;
}
