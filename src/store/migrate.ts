import { type Kysely, Migrator, sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import { groundState } from './migrations/0001-ground-state.js';
import { derivedAndWork } from './migrations/0002-derived-and-work.js';
import { appointments } from './migrations/0003-appointments.js';
import { clinicFitRules } from './migrations/0004-clinic-fit-rules.js';
import { doors } from './migrations/0005-doors.js';
import { skinChecks } from './migrations/0006-skin-checks.js';
import { deviceReplaces } from './migrations/0008-device-replaces.js';
import { sheetAnswers } from './migrations/0010-sheet-answers.js';
import { familyQuestions } from './migrations/0016-family-questions.js';
import { populationOffsets } from './migrations/0020-population-offsets.js';
import { signOffs } from './migrations/0021-sign-offs.js';
import { firstPassword } from './migrations/0027-first-password.js';
import { changesAndBriefs } from './migrations/0032-changes-and-briefs.js';
import { lookBack } from './migrations/0033-look-back.js';
import { currentRows } from './migrations/0034-current-rows.js';
import { importRows } from './migrations/0035-import-rows.js';
import type { Tables } from './tables.js';

const steps = {
  '0001-ground-state': groundState,
  '0002-derived-and-work': derivedAndWork,
  '0003-appointments': appointments,
  '0004-clinic-fit-rules': clinicFitRules,
  '0005-doors': doors,
  '0006-skin-checks': skinChecks,
  '0008-device-replaces': deviceReplaces,
  '0010-sheet-answers': sheetAnswers,
  '0016-family-questions': familyQuestions,
  '0020-population-offsets': populationOffsets,
  '0021-sign-offs': signOffs,
  '0027-first-password': firstPassword,
  '0032-changes-and-briefs': changesAndBriefs,
  '0033-look-back': lookBack,
  '0034-current-rows': currentRows,
  '0035-import-rows': importRows,
};

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
  const newer = (await appliedMigrations(db)).filter((name) => !Object.hasOwn(migrations, name));
  if (newer.length > 0)
    throw new DoorpostError(
      'invalid-configuration',
      `The database was brought up to date by a newer doorpost (${newer.at(-1)})`,
      { accepted: 'that version of doorpost or a later one, or a backup made before the upgrade' },
    );
  // Steps stand on their own: one with a lower number that came later is still applied to a database that has the others.
  const provider = { getMigrations: async () => migrations };
  const migrator = new Migrator({ db, provider, allowUnorderedMigrations: true });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
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
