import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { startEmbeddedDatabase } from '../../src/store/embedded/embedded-database.js';

export interface TestDatabase {
  readonly url: string;
  readonly folder: string;
  stop(): Promise<void>;
}

/** A real PostgreSQL of its own in a throw-away folder (without fsync: it need not survive the machine). */
export async function testDatabase(): Promise<TestDatabase> {
  const folder = await mkdtemp(path.join(tmpdir(), 'doorpost-test-'));
  // mkdtemp makes it 0700 for root; the database runs as 'postgres' and must be able to enter.
  await import('node:fs/promises').then((fs) => fs.chmod(folder, 0o755));
  const database = await startEmbeddedDatabase(folder, { fast: true });
  return {
    url: database.url,
    folder,
    stop: async () => {
      await database.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
