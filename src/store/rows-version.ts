import { sql } from 'kysely';
import type { Database } from './connect.js';
import type { Tables } from './tables.js';

/**
 * Changes whenever a row of one of the tables does: how many statements have changed them, and the sum of their numbers
 * (the sum, because the last to commit need not be the last to have begun).
 */
export async function rowsVersion(db: Database, tables: readonly (keyof Tables)[]): Promise<string> {
  const row = await db
    .selectFrom('record_changes')
    .select(sql<string>`count(*) || '/' || coalesce(sum(seq), 0)`.as('version'))
    .where('table_name', 'in', tables)
    .executeTakeFirstOrThrow();
  return row.version;
}

/** Old rows go; an answer kept by them is worked out once more. */
export async function sweepChanges(db: Database, before: Date): Promise<void> {
  await db.deleteFrom('record_changes').where('at', '<', before).execute();
}
