import type { IsoDate } from '../records/dates.js';
import type { Actor, MeasurementRevision, Store } from '../store/contract.js';

/** Corrections this close in time, with the same reason and hand, were one action, ms. */
const ONE_ACTION_MS = 5000;

/**
 * Takes the last correction of a reading back, and with it those made in the same action: sides that were swapped
 * together come back together, never half. Gives the asked reading's new revision.
 */
export async function undoCorrection(
  tx: Store,
  measurementId: string,
  today: IsoDate,
  actor: Actor,
): Promise<MeasurementRevision> {
  const [first] = await tx.measurements.revisions(measurementId, actor);
  const all = await tx.measurements.corrected(first.measurement.childId, actor);
  const together = correctedTogether(all, measurementId);
  for (const id of together.filter((other) => other !== measurementId))
    await tx.measurements.undoCorrection(id, today, actor);
  // What was never corrected is refused here.
  return tx.measurements.undoCorrection(measurementId, today, actor);
}

function correctedTogether(revisions: readonly MeasurementRevision[], readingId: string): string[] {
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
