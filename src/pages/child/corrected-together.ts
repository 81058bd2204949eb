import type { MeasurementRevision } from '../../store/contract.js';

/** Corrections this close in time, with the same reason and hand, were one action, ms. */
const ONE_ACTION_MS = 5000;

/**
 * Ids of the readings whose last correction was made in one action with this one's: sides that were swapped together
 * are taken back together, never half. Empty when the reading was not corrected.
 */
export function correctedTogether(revisions: readonly MeasurementRevision[], readingId: string): string[] {
  const last = new Map<string, MeasurementRevision>();
  for (const r of revisions) {
    const known = last.get(r.measurement.id);
    if (!known || r.revision > known.revision) last.set(r.measurement.id, r);
  }
  const own = last.get(readingId);
  if (!own) return [];
  return [...last]
    .filter(
      ([, r]) =>
        r.revision > 1 &&
        r.reason === own.reason &&
        r.by === own.by &&
        Math.abs(Date.parse(r.at) - Date.parse(own.at)) < ONE_ACTION_MS,
    )
    .map(([id]) => id);
}
