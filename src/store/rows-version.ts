import { sql } from 'kysely';
import type { Database } from './connect.js';
import type { Tables } from './tables.js';

/**
 * Changes whenever a row of the table does: how many there are, and the sum of the transactions that wrote them (the
 * sum, because the last to commit need not be the last to have begun). Nothing is written for it and nothing locked.
 */
export async function rowsVersion(db: Database, table: keyof Tables): Promise<string> {
  const { rows } = await sql<{ version: string }>`
    select count(*) || '/' || coalesce(sum(xmin::text::bigint), 0) as version from ${sql.table(table)}`.execute(
    db,
  );
  return rows[0].version;
}
