import { type Kysely, Migrator, sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import { derivedAndWork } from './migrations/derived-and-work.js';
import { groundState } from './migrations/ground-state.js';
import type { Tables } from './tables.js';

/** Before anything was released its steps became one; a step that comes later stands beside it. */
const ALL_AS_IT_STOOD = '0036-clinic';
/** The last of the steps that became one: a database that has taken it is what the one makes. */
const LAST_BEFORE = '0035-import-rows';

const steps = { [ALL_AS_IT_STOOD]: groundState + derivedAndWork };

/** Each step is SQL and nothing else. */
const migrations = Object.fromEntries(
  Object.entries(steps).map(([name, text]) => [
    name,
    { up: async (db: Kysely<unknown>) => void (await sql.raw(text).execute(db)) },
  ]),
);

/** SQLSTATE where nothing was ever migrated. */
const NO_SUCH_TABLE = '42P01';

/** Brings the tables up to date; several processes may call it at once, and a half-done step is rolled back. */
export async function migrate(db: Kysely<Tables>): Promise<void> {
  const applied = await appliedMigrations(db);
  const newer = sinceOne(applied, 'database').filter((name) => !Object.hasOwn(migrations, name));
  if (newer.length > 0)
    throw new DoorpostError(
      'invalid-configuration',
      `The database was brought up to date by a newer doorpost (${newer.at(-1)})`,
      { accepted: 'that version of doorpost or a later one, or a backup made before the upgrade' },
    );
  if (applied.includes(LAST_BEFORE))
    await sql`with before as (delete from kysely_migration where name <= ${LAST_BEFORE} returning 1)
      insert into kysely_migration select ${ALL_AS_IT_STOOD}, now()::text where exists (select 1 from before)`.execute(
      db,
    );
  // Steps stand on their own: one with a lower number that came later is still applied to a database that has the others.
  const provider = { getMigrations: async () => migrations };
  const migrator = new Migrator({ db, provider, allowUnorderedMigrations: true });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
}

/** The steps that a database or a backup has taken, as they count now; refused where it has taken but some of those of before. */
export function sinceOne(taken: readonly string[], what: 'database' | 'backup'): string[] {
  const later = taken.filter((name) => name > LAST_BEFORE);
  if (later.length === taken.length) return later;
  if (taken.includes(LAST_BEFORE)) return [ALL_AS_IT_STOOD, ...later];
  throw new DoorpostError(
    'invalid-configuration',
    `The ${what} is of a doorpost too old to be brought up to date; nothing of it was changed`,
    { accepted: `one that a doorpost with the step ${LAST_BEFORE} has started with once, or backed up` },
  );
}

/** Are all migrations this program knows applied? More of them is no fault: a newer program may work beside this one. */
export async function isMigrated(db: Kysely<Tables>): Promise<boolean> {
  const applied = new Set(await appliedMigrations(db));
  return Object.keys(migrations).every((name) => applied.has(name));
}

export async function appliedMigrations(db: Kysely<Tables>): Promise<string[]> {
  try {
    const { rows } = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(db);
    return rows.map((r) => r.name);
  } catch (error) {
    if ((error as { code?: string }).code === NO_SUCH_TABLE) return [];
    throw error;
  }
}
