import { type RawBuilder, sql } from 'kysely';
import type { Database } from './connect.js';
import type { Tables } from './tables.js';

/**
 * Changes whenever a row of one of the tables does: how many statements have changed them, and the sum of their numbers
 * (the sum, because the last to commit need not be the last to have begun).
 */
export const rowsVersion = (tables: readonly (keyof Tables)[]): RawBuilder<string> =>
  sql`(select count(*) || '/' || coalesce(sum(seq), 0) from record_changes where table_name = any(${tables}))`;

/**
 * Old rows go; an answer kept by them is worked out once more. The last of each table stays: without any, the version
 * would be again what it was when there had been none.
 */
export async function sweepChanges(db: Database, before: Date): Promise<void> {
  await sql`delete from record_changes r where at < ${before} and exists (
    select from record_changes later where later.table_name = r.table_name and later.seq > r.seq
  )`.execute(db);
}
