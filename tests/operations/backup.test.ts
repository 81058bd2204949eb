import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backedUpTables, writeBackup } from '../../src/store/backup.js';
import { systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { restoreBackup } from '../../src/store/restore.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { exampleCaseload } from '../store/example-children.js';

/** Gone by intent: who is signed in, work under way and what the migrator itself keeps. A new table must be put here or be kept. */
const notBackedUp = [
  'kysely_migration',
  'kysely_migration_lock',
  'sessions',
  'access_tokens',
  'sign_in_tries',
  'imports',
  'job_runs',
  'job_run_parts',
];

/** Every row of every table as text, by the database itself. */
async function contents(url: string): Promise<Record<string, string[]>> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const all: Record<string, string[]> = {};
  for (const table of backedUpTables) {
    const { rows } = await client.query(`select t::text as row from ${table} t order by 1`);
    all[table] = rows.map((r) => r.row);
  }
  await client.end();
  return all;
}

const LEFT_OUT = [
  'access_tokens',
  'imports',
  'job_run_parts',
  'job_runs',
  'kysely_migration',
  'kysely_migration_lock',
  'sessions',
  'sign_in_tries',
];

describe('backup and restore', () => {
  let from: TestDatabase;
  let to: TestDatabase;
  let file: string;
  beforeAll(async () => {
    from = await testDatabase();
    to = await testDatabase({ bare: true });
    file = path.join(from.folder, 'backup.gz');
    const store = await openStore(from.url);
    await store.caseload.write(exampleCaseload(700), 'import', systemActor);
    await store.measurements.correct(
      'c0-m0left',
      { value: 170.1, reason: 'misread' },
      '2026-02-01',
      1,
      systemActor,
    );
    await store.children.change(
      'c1',
      { contact: 'Zoë "quoted" \\ line\nbreak' },
      '2026-06-15',
      null,
      systemActor,
    );
    await store.children.erase('c2', 'asked', systemActor);
    await store.users.create(
      { name: 'admin', role: 'administrator', password: 'a long password' },
      systemActor,
    );
    await store.fitLimits.change(
      [{ family: 'kafo', measure: 'knee_height', figure: 'allowanceMm', mm: 12.5, reason: 'own audit' }],
      0,
      systemActor,
    );
    const link = await store.familyLinks.create('c3', '', 30, new Date(), systemActor);
    await writeFile(`${file}.link`, link.token);
    await store.close();
    await writeBackup(from.url, file);
  });
  afterAll(async () => {
    await from.stop();
    await to.stop();
  });

  it('holds every table but those of running work, of migrations and of sign-ins, which end by themselves', async () => {
    const client = new pg.Client({ connectionString: from.url });
    await client.connect();
    const { rows } = await client.query(
      `select table_name as name from information_schema.tables
        where table_schema = 'public' and table_type = 'BASE TABLE'`,
    );
    await client.end();
    const left = rows
      .map((r) => r.name)
      .filter((name) => !(backedUpTables as readonly string[]).includes(name));
    expect(left.toSorted()).toEqual(LEFT_OUT);
  });

  it('refuses a damaged file and leaves the database empty', async () => {
    const lines = gunzipSync(await readFile(file))
      .toString()
      .split('\n');
    const broken = {
      cut: Buffer.from((await readFile(file)).subarray(0, 20_000)),
      'without end': gzipSync(lines.slice(0, -2).join('\n')),
      'a row changed': gzipSync(lines.map((l) => l.replace('misread', 'mIsread')).join('\n')),
      'another file': gzipSync('{"hello":1}\n'),
      'not packed': Buffer.from('hello'),
    };
    for (const [name, bytes] of Object.entries(broken)) {
      await writeFile(`${file}.broken`, bytes);
      await expect(restoreBackup(to.url, `${file}.broken`), name).rejects.toMatchObject({
        code: 'cannot-restore',
      });
    }
    expect((await contents(to.url)).children).toEqual([]);
  });

  it('says of a missing file, a folder and an edited row what is wrong with it', async () => {
    const lines = gunzipSync(await readFile(file)).toString();
    await writeFile(
      `${file}.edited`,
      gzipSync(lines.replace(/"birth_date":\s*"[^"]*"/, '"birth_date":"never"')),
    );
    for (const given of [`${file}.nowhere`, from.folder, `${file}.edited`]) {
      const error = await restoreBackup(to.url, given).catch((e) => e);
      expect(error, given).toMatchObject({ code: 'cannot-restore' });
      expect(error.message).toMatch(/There is no file|is a folder|a row of the table 'children'/);
    }
  });

  it('covers every table that the database has', async () => {
    const client = new pg.Client({ connectionString: from.url });
    await client.connect();
    const { rows } = await client.query(
      "select table_name as name from information_schema.tables where table_schema = 'public' and table_type = 'BASE TABLE'",
    );
    await client.end();
    const there = rows.map((r) => r.name).filter((name) => !notBackedUp.includes(name));
    expect(there.sort()).toEqual([...backedUpTables].sort());
  });

  it('gives every row back, to the digit, and the service goes on: passwords, links, numbering', async () => {
    const rows = await restoreBackup(to.url, file);
    const [before, after] = [await contents(from.url), await contents(to.url)];
    expect(after).toEqual(before);
    expect(rows).toBe(Object.values(before).reduce((n, r) => n + r.length, 0));
    const store = await openStore(to.url);
    expect(await store.users.signIn('admin', 'a long password')).toMatchObject({ role: 'administrator' });
    const token = await readFile(`${file}.link`, 'utf8');
    expect((await store.familyLinks.open(token, new Date())).childId).toBe('c3');
    await store.measurements.correct(
      'c0-m0left',
      { value: 171, reason: 'again' },
      '2026-02-01',
      2,
      systemActor,
    );
    await store.close();
  });

  it('does not overwrite a database in use', async () => {
    await expect(restoreBackup(to.url, file)).rejects.toMatchObject({ code: 'cannot-restore' });
  });
});
