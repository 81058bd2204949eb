import { type Kysely, Migrator, sql } from 'kysely';
import * as groundState from './migrations/0001-ground-state.js';
import * as derivedAndWork from './migrations/0002-derived-and-work.js';
import * as appointments from './migrations/0003-appointments.js';
import * as clinicFitRules from './migrations/0004-clinic-fit-rules.js';

import * as doors from './migrations/0005-doors.js';

import * as skinChecks from './migrations/0006-skin-checks.js';
import * as deviceReplaces from './migrations/0008-device-replaces.js';
import * as sheetAnswers from './migrations/0010-sheet-answers.js';
import * as familyQuestions from './migrations/0016-family-questions.js';
import * as populationOffsets from './migrations/0020-population-offsets.js';

import * as signOffs from './migrations/0021-sign-offs.js';

import type { Tables } from './tables.js';

const migrations = {
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
};

/** Brings the tables up to date; several processes may call it at once, and a half-done step is rolled back. */
export async function migrate(db: Kysely<Tables>): Promise<void> {
  // Steps stand on their own: one with a lower number that came later is still applied to a database that has the others.
  const provider = { getMigrations: async () => migrations };
  const migrator = new Migrator({ db, provider, allowUnorderedMigrations: true });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
}

/** Are all migrations this program knows applied? */
export async function isMigrated(db: Kysely<Tables>): Promise<boolean> {
  const { rows } = await sql<{ n: number }>`select count(*)::int as n from kysely_migration`
    .execute(db)
    .catch(() => ({ rows: [] }));
  return rows[0]?.n === Object.keys(migrations).length;
}
