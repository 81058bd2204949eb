import type { EarlierVisit } from '../recall/carry-over.js';
import type { Database } from './connect.js';
import { recallEntryRows } from './recall-entry-rows.js';

/** An entry of the latest list and the last thing said of it. */
export type EarlierEntry = EarlierVisit & {
  readonly last: { readonly note: string; readonly by: string; readonly at: Date } | null;
};

/** The latest list as the next one must know it. */
export async function earlierVisits(db: Database): Promise<EarlierEntry[]> {
  const rows = await recallEntryRows(db)
    .where('e.run_id', '=', (q) => q.selectFrom('recall_runs').select('id').orderBy('seq', 'desc').limit(1))
    .execute();
  return rows.map((r) => ({
    childId: r.child_id,
    action: r.data.action,
    deviceIds: r.data.deviceIds,
    plannedWeek: r.data.plannedWeek ?? null,
    clinician: r.data.plannedClinician ?? '',
    passedWeeks: r.data.passedWeeks ?? [],
    state: r.state,
    appointment: r.appointment,
    last: r.at ? { note: r.note ?? '', by: r.by_name ?? '', at: r.at } : null,
  }));
}
