import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { startEmbeddedDatabase } from '../../src/store/embedded/embedded-database.js';
import { openStore } from '../../src/store/open-store.js';

/** A migrated database that nobody uses: each test file gets a copy of it. */
export const TEMPLATE = 'doorpost_template';

export interface OnePostgres {
  readonly url: string;
  stop(): Promise<void>;
}

/** A real PostgreSQL in a throw-away folder (without fsync: it need not survive the machine), with the template made. */
export async function startOnePostgres(): Promise<OnePostgres> {
  const folder = await mkdtemp(path.join(tmpdir(), 'doorpost-postgres-'));
  // mkdtemp makes it 0700 for root; the database runs as 'postgres' and must be able to enter.
  await chmod(folder, 0o755);
  const server = await startEmbeddedDatabase(folder, { fast: true });
  await onServer(server.url, `create database ${TEMPLATE}`);
  const template = await openStore(databaseUrl(server.url, TEMPLATE));
  await template.close();
  return {
    url: server.url,
    stop: async () => {
      await server.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

export async function onServer(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}

export function databaseUrl(serverUrl: string, name: string): string {
  const url = new URL(serverUrl);
  url.pathname = `/${name}`;
  return url.href;
}
