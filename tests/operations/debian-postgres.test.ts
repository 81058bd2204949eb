import { execFile } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { appendFile, chmod, chown, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { writeBackup } from '../../src/store/backup.js';
import { systemActor } from '../../src/store/contract.js';
import { runAs } from '../../src/store/embedded/run-as.js';
import { openStore } from '../../src/store/open-store.js';
import { restoreBackup } from '../../src/store/restore.js';
import { testDatabase } from '../database/test-database.js';
import { exampleCaseload } from '../store/example-children.js';

const run = promisify(execFile);
const versions = existsSync('/usr/lib/postgresql') ? readdirSync('/usr/lib/postgresql') : [];
const bin = versions.map((v) => `/usr/lib/postgresql/${v}/bin`).find((b) => existsSync(`${b}/initdb`));

/** A real server of another version (Debian's package postgresql), started apart and named by DATABASE_URL. */
describe('a PostgreSQL server of another version', () => {
  it.skipIf(!bin)(
    `takes the store, its queue and a backup of the built-in one${bin ? '' : ' (skipped: Debian package postgresql is not installed)'}`,
    async () => {
      const folder = await mkdtemp(path.join(tmpdir(), 'doorpost-debian-'));
      await chmod(folder, 0o755);
      const as = runAs();
      const cluster = path.join(folder, 'cluster');
      if (as.uid !== undefined) await chown(folder, as.uid, as.gid!);
      const options = { ...as, cwd: folder };
      await run(
        `${bin}/initdb`,
        ['-D', cluster, '-U', 'tester', '-A', 'trust', '-E', 'UTF8', '--no-sync'],
        options,
      );
      const port = 20_000 + Math.floor(process.pid % 20_000);
      await appendFile(
        `${cluster}/postgresql.conf`,
        `\nport = ${port}\nlisten_addresses = '127.0.0.1'\nunix_socket_directories = ''\nfsync = off\n`,
      );
      await run(`${bin}/pg_ctl`, ['-D', cluster, '-l', `${cluster}/log`, '-w', 'start'], options);
      const other = `postgres://tester@127.0.0.1:${port}/postgres`;
      const own = await testDatabase();
      try {
        const from = await openStore(own.url);
        await from.caseload.write(exampleCaseload(20), 'import', '2026-02-01', systemActor);
        await from.close();
        await writeBackup(own.url, path.join(own.folder, 'b.gz'));
        await restoreBackup(other, path.join(own.folder, 'b.gz'));
        const store = await openStore(other);
        expect(
          await store.caseload.write(exampleCaseload(20), 'again', '2026-02-01', systemActor),
        ).toMatchObject({
          added: 0,
          changed: 0,
        });
        await store.measurements.correct(
          'c0-m0left',
          { value: 171, reason: 'x' },
          '2026-02-01',
          1,
          systemActor,
        );
        await store.enqueue('nightly', {});
        expect(await store.queue.waiting()).toContainEqual({ name: 'nightly', jobs: 1 });
        await store.close();
      } finally {
        await own.stop();
        await run(`${bin}/pg_ctl`, ['-D', cluster, '-m', 'immediate', 'stop'], options);
        await rm(folder, { recursive: true, force: true });
      }
    },
  );
});
