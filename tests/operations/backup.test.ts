import { readFile, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { runCommandLine } from '../../src/commands/run-command-line.js';
import { terminal } from '../../src/commands/terminal.js';
import { backedUpTables, leftOutTables, writeBackup } from '../../src/store/backup.js';
import { systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { restoreBackup } from '../../src/store/restore.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { exampleCaseload } from '../store/example-children.js';

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

describe('backup and restore', () => {
  let from: TestDatabase;
  let to: TestDatabase;
  let file: string;
  beforeAll(async () => {
    from = await testDatabase();
    to = await testDatabase({ bare: true });
    file = path.join(from.folder, 'backup.gz');
    const store = await openStore(from.url);
    await store.caseload.write(exampleCaseload(700), 'import', '2026-02-01', systemActor);
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

  it('is a file for its owner alone: it holds health data and secrets', async () => {
    expect((await stat(file)).mode & 0o077).toBe(0);
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

  it('doorpost restore says of a missing file, a folder and an edited row what is wrong, and ends with 2', async () => {
    const lines = gunzipSync(await readFile(file)).toString();
    await writeFile(
      `${file}.edited`,
      gzipSync(lines.replace(/"birth_date":\s*"[^"]*"/, '"birth_date":"never"')),
    );
    vi.stubEnv('DATABASE_URL', to.url);
    const said = vi.spyOn(terminal, 'err').mockReturnValue();
    for (const [given, words] of [
      [`${file}.nowhere`, 'There is no file'],
      [from.folder, 'is a folder'],
      [`${file}.edited`, "a row of the table 'children'"],
    ]) {
      expect(await runCommandLine(['restore', '--from', given]), given).toBe(2);
      expect(said.mock.lastCall?.[0]).toContain(words);
      expect(said.mock.lastCall?.[0]).not.toMatch(/\n {4}at /);
    }
    vi.unstubAllEnvs();
    said.mockRestore();
  });

  it('keeps numbered rows in the order they were entered: a correction comes after what it corrects', async () => {
    const lines = gunzipSync(await readFile(file))
      .toString()
      .split('\n')
      .flatMap((line) => (line.startsWith('{"table"') ? [JSON.parse(line)] : []));
    for (const table of ['measurements', 'audit', 'record_history', 'fit_limit_changes']) {
      const numbers = lines.filter((line) => line.table === table).map(({ row }) => row.seq);
      expect(numbers.length, table).toBeGreaterThan(0);
      expect(numbers, table).toEqual(numbers.toSorted((a, b) => a - b));
    }
  });

  it('holds every table that the database has, or says why not', async () => {
    const client = new pg.Client({ connectionString: from.url });
    await client.connect();
    const { rows } = await client.query(
      "select table_name as name from information_schema.tables where table_schema = 'public' and table_type = 'BASE TABLE'",
    );
    await client.end();
    expect(rows.map((r) => r.name).sort()).toEqual([...backedUpTables, ...Object.keys(leftOutTables)].sort());
  });

  it('gives every row back, to the digit, and the service goes on: passwords, links, numbering', async () => {
    // The first start in the new place has made secrets of its own: the old ones are what links were signed with.
    const begun = await openStore(to.url);
    for (const name of ['session-cookie', 'family-links']) await begun.secret(name);
    await begun.close();
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

  it('does not overwrite a database in use, nor mix two clinics', async () => {
    await expect(restoreBackup(to.url, file)).rejects.toMatchObject({ code: 'cannot-restore' });
    // Not one row of this one is in the backup: nothing but the look at it keeps the two apart.
    const other = await testDatabase();
    const store = await openStore(other.url);
    await store.caseload.write(exampleCaseload(1, 'other'), 'import', '2026-02-01', systemActor);
    await store.close();
    await expect(restoreBackup(other.url, file)).rejects.toThrow('This database holds records already');
    expect((await contents(other.url)).children).toHaveLength(1);
    await other.stop();
  });

  it('of a later doorpost is refused in words', async () => {
    const [head, ...lines] = gunzipSync(await readFile(file))
      .toString()
      .split('\n');
    const later = JSON.parse(head);
    later.migrations.push('9999-of-a-later-one');
    await writeFile(`${file}.later`, gzipSync([JSON.stringify(later), ...lines].join('\n')));
    const empty = await testDatabase({ bare: true });
    await expect(restoreBackup(empty.url, `${file}.later`)).rejects.toThrow('written by a newer doorpost');
    await empty.stop();
  });
});
