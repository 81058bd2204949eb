import { readFileSync } from 'node:fs';
import pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Store } from '../../src/store/contract.js';
import { sinceOne } from '../../src/store/migrate.js';
import { openStore } from '../../src/store/open-store.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { exampleCaseload } from './example-children.js';

const old = readFileSync(new URL('schema-at-0035.sql', import.meta.url), 'utf8');
const shape = `
  select table_name, column_name, data_type, is_nullable, column_default from information_schema.columns
  where table_schema = 'public' order by 1, 2`;
const guards = [
  `select event_object_table, trigger_name, event_manipulation from information_schema.triggers
    where trigger_schema = 'public' order by 1, 2, 3`,
  `select conrelid::regclass::text as of, pg_get_constraintdef(oid) as says from pg_constraint
    where connamespace = 'public'::regnamespace order by 1, 2`,
  `select indexdef from pg_indexes where schemaname = 'public' order by 1`,
  `select proname, prosrc from pg_proc where pronamespace = 'public'::regnamespace order by 1`,
  `select viewname, definition from pg_views where schemaname = 'public' order by 1`,
  `select relname, relacl::text from pg_class where relnamespace = 'public'::regnamespace and relkind = 'r' order by 1`,
];

let upgraded: TestDatabase;
let fresh: TestDatabase;
let store: Store;
beforeAll(async () => {
  [upgraded, fresh] = [await testDatabase({ bare: true }), await testDatabase()];
  await ask(upgraded.url, old);
  store = await openStore(upgraded.url);
});
afterAll(async () => {
  await store.close();
  await Promise.all([upgraded.stop(), fresh.stop()]);
});

async function ask(url: string, sql: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

it('a clinic of an older version keeps every row, and works on', async () => {
  const byId = (rows: readonly { id: string }[]) => [...rows].sort((a, b) => a.id.localeCompare(b.id));
  const all = await store.caseload.all();
  const given = exampleCaseload(2);
  for (const table of Object.keys(given) as (keyof typeof given)[])
    expect(byId(all[table]), table).toEqual(byId(given[table]));
  expect(await store.users.signIn('clinician', 'a long password')).toMatchObject({ role: 'clinician' });
  await store.ready();
});

it('its tables and what guards them are those of a new clinic', async () => {
  expect(await ask(upgraded.url, shape)).toEqual(await ask(fresh.url, shape));
  for (const guard of guards)
    expect(await ask(upgraded.url, guard), guard).toEqual(await ask(fresh.url, guard));
});

it('beside a newer doorpost the older one works on, but does not start anew', async () => {
  await ask(upgraded.url, "insert into kysely_migration values ('9999-of-tomorrow', now()::text)");
  try {
    await store.ready();
    const refused = await openStore(upgraded.url).catch((error) => error);
    expect(refused).toMatchObject({ code: 'invalid-configuration' });
    expect(refused.message).toContain('9999-of-tomorrow');
    await ask(upgraded.url, "update kysely_migration set name = '0037-of-another' where name like '0036%'");
    await expect(store.ready()).rejects.toThrow('not up to date');
  } finally {
    await ask(upgraded.url, "delete from kysely_migration where name = '9999-of-tomorrow'");
  }
});

it('one that has taken but some of the steps of before is refused and left as it was', async () => {
  const half = await testDatabase({ bare: true });
  try {
    await ask(half.url, old);
    await ask(half.url, "delete from kysely_migration where name = '0035-import-rows'");
    const refused = await openStore(half.url).catch((error) => error);
    expect(refused).toMatchObject({ code: 'invalid-configuration' });
    expect(refused.place.accepted).toContain('0035-import-rows');
    expect(await ask(half.url, 'select count(*)::int as n from kysely_migration')).toEqual([{ n: 15 }]);
    expect(await ask(half.url, 'select count(*)::int as n from children')).toEqual([{ n: 2 }]);
  } finally {
    await half.stop();
  }
});

it('a backup of before counts as what its steps make, one of half of them is refused', () => {
  expect(sinceOne(['0001-ground-state', '0035-import-rows'], 'backup')).toEqual(['0036-clinic']);
  expect(sinceOne(['0036-clinic', '0037-later'], 'backup')).toEqual(['0036-clinic', '0037-later']);
  expect(() => sinceOne(['0001-ground-state', '0034-current-rows'], 'backup')).toThrow('too old');
});
