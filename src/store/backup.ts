import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import { sql } from 'kysely';
import { connect, type Database } from './connect.js';
import { appliedMigrations } from './migrate.js';

/** In an order that foreign keys allow. */
export const backedUpTables = [
  'children',
  'tombstones',
  'measurements',
  'markers',
  'devices',
  'device_events',
  'skin_checks',
  'workshop_jobs',
  'record_history',
  'audit',
  'assessments',
  'forecast_history',
  'recall_runs',
  'recall_entries',
  'recall_state_changes',
  'users',
  'family_links',
  'family_questions',
  'settings',
  'fit_limit_changes',
  'sign_offs',
  // Nothing reads it any more; backups of earlier versions hold it.
  'population_offsets',
  'sheet_answers',
  'secrets',
  'idempotency_keys',
] as const;

/** What a backup does not hold, and why. The queue's own tables lie in a schema of their own: jobs are asked for again. */
export const leftOutTables = {
  kysely_migration: 'the database that is restored into has its own',
  kysely_migration_lock: 'the same',
  sessions: 'whoever was signed in signs in again',
  access_tokens: 'programs are given new ones; a copy of a backup must not open the door',
  sign_in_tries: 'counts wrong passwords of the last minutes',
  imports: 'dry runs; what was taken in of them stands in its own tables and in the log',
  import_rows: 'the same',
  job_runs: 'how far work was that nobody does any more; lists and forecasts themselves are kept',
  job_run_parts: 'the same',
  record_changes: 'that something has changed; whoever keeps an answer by it begins anew',
} as const;

const ROWS_AT_ONCE = 2000;
export const FORMAT = 'doorpost-backup/1';

/** The backup as a file of its own; a file begun and not finished does not stay. Gives the number of rows. */
export async function writeBackup(url: string, path: string): Promise<number> {
  const part = `${path}.part`;
  try {
    const rows = await streamBackup(url, createWriteStream(part, { mode: 0o600 }));
    await rename(part, path);
    return rows;
  } catch (error) {
    await rm(part, { force: true });
    throw error;
  }
}

/**
 * Every row, gzipped: a line of JSON a row, then a line with the number of rows and a digest, so that a file cut short
 * is not restored. Taken in one snapshot, while the service runs; readable by a server of any version. It holds health
 * data and the service's secrets: keep it as safe as the database. Gives the number of rows.
 */
export async function streamBackup(url: string, to: Writable): Promise<number> {
  const db = connect(url, 1);
  let rows = 0;
  try {
    await db
      .transaction()
      .setIsolationLevel('repeatable read')
      .setAccessMode('read only')
      .execute(async (tx) => {
        const digest = createHash('sha256');
        async function* lines() {
          const line = (value: unknown) => {
            const text = `${JSON.stringify(value)}\n`;
            digest.update(text);
            return text;
          };
          yield line({ format: FORMAT, migrations: await appliedMigrations(tx) });
          const numbered = await numberedTables(tx);
          for (const table of backedUpTables)
            for await (const row of rowsOf(tx, table, numbered.has(table) ? 'seq' : '1')) {
              rows++;
              yield line({ table, row });
            }
          yield `${JSON.stringify({ rows, sha256: digest.digest('hex') })}\n`;
        }
        await pipeline(Readable.from(lines()), createGzip(), to);
      });
    return rows;
  } finally {
    await db.destroy();
  }
}

async function* rowsOf(tx: Database, table: string, order: string): AsyncGenerator<unknown> {
  await sql`declare backup_rows no scroll cursor for select to_jsonb(t) as row from ${sql.table(table)} t order by ${sql.raw(order)}`.execute(
    tx,
  );
  for (;;) {
    const { rows } = await sql<{
      row: unknown;
    }>`fetch ${sql.raw(String(ROWS_AT_ONCE))} from backup_rows`.execute(tx);
    for (const { row } of rows) yield row;
    if (rows.length < ROWS_AT_ONCE) break;
  }
  await sql`close backup_rows`.execute(tx);
}

/** Tables that number their rows: a correction refers to the row before it, so they are kept in order of entry. */
export async function numberedTables(tx: Database): Promise<ReadonlySet<string>> {
  const { rows } = await sql<{ name: string }>`
    select table_name as name from information_schema.columns
    where table_schema = 'public' and column_name = 'seq' and column_default like 'nextval(%'`.execute(tx);
  return new Set(rows.map((r) => r.name));
}
