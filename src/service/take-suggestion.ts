import type { DataSuggestion } from '../forecast/contract.js';
import { acceptSuggestion } from '../forecast/suggestions/accept-suggestion.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import { LONGEST_REASON } from '../records/records.js';
import type { Actor, MeasurementRevision, Store } from '../store/contract.js';

/** Corrects what a suggestion that was accepted says, each reading with the suggestion's own reason. */
export async function takeSuggestion(
  tx: Store,
  record: ChildRecord,
  suggestion: DataSuggestion,
  today: IsoDate,
  actor: Actor,
): Promise<MeasurementRevision[]> {
  const items = [];
  for (const { measurementId, reason, ...correction } of acceptSuggestion(record, suggestion)) {
    const change = { ...correction, reason: reason.slice(0, LONGEST_REASON) };
    items.push(await tx.measurements.correct(measurementId, change, today, null, actor));
  }
  return items;
}
