import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import { createGunzip } from 'node:zlib';
import { sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import { backedUpTables, FORMAT, numberedTables } from './backup.js';
import { connect, type Database } from './connect.js';
import { appliedMigrations, migrate, sinceOne } from './migrate.js';

const ROWS_AT_ONCE = 500;

/** Loads a backup into a database that holds nothing yet, whole or not at all. Gives the number of rows. */
export async function restoreBackup(url: string, path: string): Promise<number> {
  const db = connect(url, 1);
  try {
    await migrate(db);
    return await db.transaction().execute(async (tx) => {
      await refuseUnlessEmpty(tx);
      const rows = await load(tx, path);
      // Every table that numbers its rows goes on behind the last number.
      for (const table of await numberedTables(tx))
        await sql`select setval(pg_get_serial_sequence(${table}, 'seq'), greatest((select max(seq) from ${sql.table(table)}), 1))`.execute(
          tx,
        );
      return rows;
    });
  } finally {
    await db.destroy();
  }
}

async function refuseUnlessEmpty(tx: Database): Promise<void> {
  for (const table of ['children', 'users', 'audit'] as const) {
    const row = await tx.selectFrom(table).select(sql`1`.as('one')).limit(1).executeTakeFirst();
    if (row)
      throw new DoorpostError('cannot-restore', 'This database holds records already', {
        accepted: 'an empty database: another DATA_DIR or DATABASE_URL',
      });
  }
  await tx.deleteFrom('secrets').execute();
}

const damaged = (why: string) => new DoorpostError('cannot-restore', `The backup is damaged: ${why}`);

async function checkHead(tx: Database, line: ReturnType<typeof parse>): Promise<void> {
  if (line?.format !== FORMAT) throw damaged('it does not begin as a doorpost backup');
  const own = new Set(await appliedMigrations(tx));
  if (sinceOne(line.migrations as string[], 'backup').some((m) => !own.has(m)))
    throw new DoorpostError('cannot-restore', 'The backup was written by a newer doorpost', {
      accepted: 'that version of doorpost or a later one',
    });
}

/** What went wrong, as whoever restores can use it. */
function reasonOf(error: unknown, path: string, where: string): unknown {
  const { code } = error as { code?: string };
  if (code?.startsWith('Z_')) return damaged('it cannot be unpacked');
  if (code === 'ENOENT') return unreadable(`There is no file ${path}`);
  if (code === 'EISDIR') return unreadable(`${path} is a folder`);
  if (code === 'EACCES') return unreadable(`${path} may not be read`);
  // What the database itself says of a row that does not fit its table.
  if (code && /^(21|22|23|42)\w{3}$/.test(code)) return damaged(`a row of ${where} does not fit`);
  return error;
}

async function load(tx: Database, path: string): Promise<number> {
  const digest = createHash('sha256');
  let rows = 0;
  let ended = false;
  let waiting: { table: string; rows: unknown[] } = { table: '', rows: [] };
  const flush = async () => {
    if (waiting.rows.length > 0)
      await sql`insert into ${sql.table(waiting.table)} select * from jsonb_populate_recordset(null::${sql.table(waiting.table)}, ${JSON.stringify(waiting.rows)}::jsonb)`.execute(
        tx,
      );
  };
  const source = createReadStream(path);
  const file = createGunzip();
  source.on('error', (error) => file.destroy(error));
  source.pipe(file);
  try {
    let first = true;
    for await (const text of createInterface({ input: file, crlfDelay: Number.POSITIVE_INFINITY })) {
      const line = parse(text);
      if (typeof line?.sha256 === 'string' && !first) {
        if (line.sha256 !== digest.digest('hex')) throw damaged('its digest does not fit');
        await flush();
        ended = true;
        break;
      }
      digest.update(`${text}\n`);
      if (first) {
        first = false;
        await checkHead(tx, line);
        continue;
      }
      const table = tableOf(line, rows + 2);
      if (table !== waiting.table || waiting.rows.length >= ROWS_AT_ONCE) {
        await flush();
        waiting = { table, rows: [] };
      }
      waiting.rows.push(line?.row);
      rows++;
    }
  } catch (error) {
    throw reasonOf(error, path, `the table '${waiting.table}', line ${rows + 1} or before,`);
  }
  if (!ended) throw damaged('its end is missing');
  return rows;
}

const known: ReadonlySet<string> = new Set(backedUpTables);

/** The table a row is of. */
function tableOf(line: Record<string, unknown> | null, at: number): string {
  if (line === null) throw damaged(`line ${at} cannot be read`);
  const table = String(line.table);
  if (!known.has(table)) throw damaged(`it names a table '${table}' that is not known`);
  return table;
}

const unreadable = (why: string) =>
  new DoorpostError('cannot-restore', why, { accepted: 'a file that doorpost backup wrote' });

function parse(text: string): Record<string, unknown> | null {
  try {
    const value = JSON.parse(text);
    return value !== null && typeof value === 'object' ? value : null;
  } catch {
    return null;
  }
}
