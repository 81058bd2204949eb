import { randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { databaseUrl, onServer, startOnePostgres, TEMPLATE } from './one-postgres.js';

export interface TestDatabase {
  readonly url: string;
  /** For files of the test. */
  readonly folder: string;
  stop(): Promise<void>;
}

/**
 * A database of its own, on the run's PostgreSQL or (in a script outside the test run) on one started for it.
 * `bare` has no table yet; otherwise the tables are there and empty.
 */
export async function testDatabase(options: { bare?: boolean } = {}): Promise<TestDatabase> {
  const running = process.env.TEST_POSTGRES_URL;
  const own = running ? null : await startOnePostgres();
  const server = running ?? own!.url;
  const name = `test_${randomBytes(6).toString('hex')}`;
  await onServer(server, `create database ${name}${options.bare ? '' : ` template ${TEMPLATE}`}`);
  const folder = await mkdtemp(path.join(tmpdir(), 'doorpost-test-'));
  return {
    url: databaseUrl(server, name),
    folder,
    stop: async () => {
      if (own) await own.stop();
      else await onServer(server, `drop database ${name} with (force)`);
      await rm(folder, { recursive: true, force: true });
    },
  };
}
