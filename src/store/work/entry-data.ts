import type { RecallEntry } from '../../recall/contract.js';
import type { Database } from '../connect.js';

/** The first pages of the list in use, which everybody opens. About 30 kB each. */
const KEPT = 500;
const known = new WeakMap<Database, Map<string, RecallEntry>>();

/** What a list says of its entries, which never changes once it is made; what people did about them does. */
export async function entryData(db: Database, ids: readonly string[]): Promise<Map<string, RecallEntry>> {
  const kept = known.get(db) ?? new Map<string, RecallEntry>();
  known.set(db, kept);
  const found = new Map(ids.flatMap((id) => (kept.has(id) ? [[id, kept.get(id) as RecallEntry]] : [])));
  const missing = ids.filter((id) => !found.has(id));
  const rows =
    missing.length === 0
      ? []
      : await db.selectFrom('recall_entries').select(['id', 'data']).where('id', 'in', missing).execute();
  for (const { id, data } of rows) found.set(id, data);
  if (ids.length > KEPT) return found;
  // Those asked for last stand last.
  for (const [id, data] of found) {
    kept.delete(id);
    kept.set(id, data);
  }
  for (const id of [...kept.keys()].slice(0, Math.max(0, kept.size - KEPT))) kept.delete(id);
  return found;
}
