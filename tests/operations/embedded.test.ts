import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chmod, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type EmbeddedDatabase, startEmbeddedDatabase } from '../../src/store/embedded/embedded-database.js';
import { findEmbeddedDatabase } from '../../src/store/embedded/find-embedded-database.js';

/** Own process numbers, own network and own mounts, as in a container; only root may make them. */
const APART = ['-p', '-n', '--fork', '--mount-proc'];
const canBeApart = spawnSync('unshare', [...APART, 'true']).status === 0;
const script = fileURLToPath(new URL('own-a-folder.ts', import.meta.url));

describe('the built-in database', () => {
  let folder: string;
  let owner: EmbeddedDatabase;
  beforeAll(async () => {
    folder = path.join(await mkdtemp(path.join(tmpdir(), 'doorpost-embedded-')), 'data');
    await chmod(path.dirname(folder), 0o755);
    owner = await startEmbeddedDatabase(folder);
    await ask('create table kept (n int)');
  });
  afterAll(async () => {
    await owner.stop();
    await rm(path.dirname(folder), { recursive: true, force: true });
  });

  const ask = async (sql: string, url = owner.url) => {
    const client = new pg.Client({ connectionString: url });
    client.on('error', () => {});
    await client.connect();
    try {
      return (await client.query(sql)).rows;
    } finally {
      await client.end().catch(() => {});
    }
  };
  const pidFile = () => readFile(path.join(folder, 'postgres', 'postmaster.pid'), 'utf8');
  const postmaster = async () => Number((await pidFile()).split('\n')[0]);
  const node = [process.execPath, '--import', 'tsx', script];
  const ownApart = () => spawnSync('unshare', [...APART, ...node, folder], { encoding: 'utf8' });

  it('has one owner: a second start is refused, touches nothing, and the first goes on', async () => {
    const before = await pidFile();
    await expect(startEmbeddedDatabase(folder)).rejects.toMatchObject({ code: 'data-folder-in-use' });
    const [command, ...args] = node;
    const second = spawnSync(command, [...args, folder], { encoding: 'utf8' });
    expect(second).toMatchObject({ status: 3, stdout: expect.stringContaining('data-folder-in-use') });
    expect(await pidFile()).toBe(before);
    await ask('insert into kept values (0)');
  });

  it.skipIf(!canBeApart)(
    `refuses one with process numbers and network of its own${canBeApart ? '' : ' (skipped: only root can start one)'}`,
    async () => {
      const before = await pidFile();
      expect(ownApart()).toMatchObject({ status: 3, stdout: expect.stringContaining('data-folder-in-use') });
      expect(await pidFile()).toBe(before);
    },
  );

  it('is found by other processes, but not from a copy of its folder', async () => {
    expect(await findEmbeddedDatabase(folder)).toBe(owner.url);
    const copy = `${folder}-copy`;
    expect(spawnSync('cp', ['-r', folder, copy]).status).toBe(0);
    expect(await findEmbeddedDatabase(copy)).toBeNull();
  });

  it('is raised again at the same address after kill -9, with every row that was acknowledged', async () => {
    for (let n = 1; n <= 2; n++) {
      await ask(`insert into kept values (${n})`);
      const killed = await postmaster();
      process.kill(killed, 'SIGKILL');
      await until(() => owner.trouble() !== null);
      expect(owner.trouble()).toMatchObject({ code: 'database-unavailable' });
      await until(() => owner.trouble() === null);
      expect(await postmaster()).not.toBe(killed);
    }
    expect(await ask('select n from kept order by n')).toEqual([{ n: 0 }, { n: 1 }, { n: 2 }]);
  }, 120_000);

  it('outlives a killed owner, is out of reach from elsewhere, and is taken over on the spot', async () => {
    await owner.stop();
    const [command, ...args] = node;
    const child = spawn(command, [...args, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
    await says(child, /owns/);
    const left = await postmaster();
    child.kill('SIGKILL');
    await new Promise((r) => child.on('exit', r));
    if (canBeApart) expect(ownApart().stdout).toMatch(/data-folder-in-use.*another container/s);
    owner = await startEmbeddedDatabase(folder);
    expect(await postmaster()).toBe(left);
    expect((await ask('select count(*)::int as n from kept'))[0].n).toBe(3);
  }, 120_000);

  it('listens on this machine only, asks for a password, and ends with its owner', async () => {
    expect(await ask('show listen_addresses')).toEqual([{ listen_addresses: '127.0.0.1' }]);
    const guessed = new URL(owner.url);
    guessed.password = 'guessed';
    await expect(ask('select 1', guessed.href)).rejects.toMatchObject({ code: '28P01' });
    await owner.stop();
    expect(await findEmbeddedDatabase(folder)).toBeNull();
  });
});

async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 1200 && !holds(); i++) await new Promise((r) => setTimeout(r, 25));
  expect(holds()).toBe(true);
}

const says = (child: ChildProcess, text: RegExp) =>
  new Promise<void>((resolve) => child.stdout?.on('data', (d) => text.test(String(d)) && resolve()));
