import { type EarlierVisit, earlierVisit } from '../../recall/carry-over.js';
import type { Database } from '../connect.js';
import { recallEntryRows } from './recall-entry-rows.js';

/** An entry of the latest list and the last thing said of it. */
export type EarlierEntry = EarlierVisit & {
  readonly last: { readonly note: string; readonly by: string; readonly at: Date } | null;
};

/** The latest list as the next one must know it. */
export async function earlierVisits(db: Database): Promise<EarlierEntry[]> {
  const rows = await recallEntryRows(db)
    .select('e.brief')
    .where('e.run_id', '=', (q) => q.selectFrom('recall_runs').select('id').orderBy('seq', 'desc').limit(1))
    .execute();
  return rows.map((r) => ({
    ...earlierVisit(r.brief, r),
    last: r.at ? { note: r.note ?? '', by: r.by_name ?? '', at: r.at } : null,
  }));
}
