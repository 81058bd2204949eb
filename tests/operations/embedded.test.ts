import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findEmbeddedDatabase, startEmbeddedDatabase } from '../../src/store/embedded/embedded-database.js';

describe('the built-in database', () => {
  let folder: string;
  beforeAll(async () => {
    folder = path.join(await mkdtemp(path.join(tmpdir(), 'doorpost-embedded-')), 'data');
    await import('node:fs/promises').then((fs) => fs.chmod(path.dirname(folder), 0o755));
  });
  afterAll(() => rm(path.dirname(folder), { recursive: true, force: true }));

  const ask = async (url: string, sql: string) => {
    const client = new pg.Client({ connectionString: url });
    client.on('error', () => {});
    await client.connect();
    try {
      return (await client.query(sql)).rows;
    } finally {
      await client.end().catch(() => {});
    }
  };
  const postmaster = async () =>
    Number((await readFile(path.join(folder, 'postgres', 'postmaster.pid'), 'utf8')).split('\n')[0]);

  it('is made, found by other processes, taken over after a killed owner, and durable over kill -9 of itself', async () => {
    const first = await startEmbeddedDatabase(folder);
    await ask(first.url, 'create table kept (n int)');
    for (let n = 1; n <= 2; n++) {
      const { url } = await startEmbeddedDatabase(folder);
      expect(await findEmbeddedDatabase(folder)).toBe(url);
      await ask(url, `insert into kept values (${n})`);
      const pid = await postmaster();
      process.kill(pid, 'SIGKILL');
      await gone(pid);
    }
    const again = await startEmbeddedDatabase(folder);
    expect(await ask(again.url, 'select n from kept order by n')).toEqual([{ n: 1 }, { n: 2 }]);
    await again.stop();
    expect(await findEmbeddedDatabase(folder)).toBeNull();
  }, 240_000);

  it('listens on this machine only and asks for a password', async () => {
    const database = await startEmbeddedDatabase(folder);
    try {
      const rows = await ask(database.url, 'show listen_addresses');
      expect(rows).toEqual([{ listen_addresses: '127.0.0.1' }]);
      const guessed = new URL(database.url);
      guessed.password = 'guessed';
      await expect(ask(guessed.href, 'select 1')).rejects.toMatchObject({ code: '28P01' });
    } finally {
      await database.stop();
    }
  });
});

async function gone(pid: number): Promise<void> {
  for (let i = 0; i < 200; i++) {
    try {
      process.kill(pid, 0);
    } catch {
      return;
    }
    await new Promise((r) => setTimeout(r, 25));
  }
}
