import { sql } from 'kysely';
import { caseloadParts } from '../../records/caseload.js';
import type { Database } from '../connect.js';
import { caseloadTables } from './caseload-tables.js';

/** What people make of a child's records afterwards: work with the recall list, links and questions to its family. */
export const BUILT = ['recall_state_changes', 'family_links', 'family_questions'] as const;
/** What is computed and can be computed again, and what records were before they were changed. */
const DERIVED = ['recall_entries', 'forecast_history', 'assessments', 'record_history'] as const;

/** Deletes all there is of a child, which append-only tables let nobody do but here; gives how many records there were. */
export async function deleteChild(tx: Database, childId: string): Promise<number> {
  await sql`select set_config('doorpost.erasing', ${childId}, true)`.execute(tx);
  for (const table of [...BUILT, ...DERIVED])
    await tx.deleteFrom(table).where('child_id', '=', childId).execute();
  let records = 0;
  // What belongs to another record goes before it.
  for (const part of caseloadParts.toReversed()) {
    const { table, childKey } = caseloadTables[part];
    // A record that was corrected or withdrawn has several rows and is one record.
    const gone = await sql<{ records: number }>`
      with gone as (delete from ${sql.table(table)} where ${sql.ref(childKey)} = ${childId} returning id)
      select count(distinct id)::int as records from gone`.execute(tx);
    records += gone.rows[0].records;
  }
  await sql`select set_config('doorpost.erasing', '', true)`.execute(tx);
  return records;
}
