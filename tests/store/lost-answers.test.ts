import { sql } from 'kysely';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { connect } from '../../src/store/connect.js';
import type { Store } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';

describe('a database that says nothing, and one whose clock was wrong', () => {
  let database: TestDatabase;
  let store: Store;
  let raw: pg.Client;
  beforeAll(async () => {
    database = await testDatabase();
    store = await openStore(database.url, { worker: true, jobLeaseSeconds: 4 });
    raw = new pg.Client({ connectionString: database.url });
    await raw.connect();
  });
  afterAll(async () => {
    await raw.end();
    await store.close();
    await database.stop();
  });

  it('an answer that does not come in time is a lost database; the next question has a connection of its own', async () => {
    const db = connect(database.url, 1, { answersWithinMs: 300 });
    const asked = performance.now();
    await expect(
      db.transaction().execute((tx) => sql`select pg_sleep(20)`.execute(tx)),
    ).rejects.toMatchObject({ code: 'database-unavailable' });
    await sql`select 1`.execute(db);
    expect(performance.now() - asked).toBeLessThan(10_000);
    await db.destroy();
  });

  it('readiness says within seconds that sessions are frozen', async () => {
    await store.ready();
    const { rows } = await raw.query<{ pid: number }>(
      `select pid from pg_stat_activity where datname = current_database() and application_name = 'doorpost-worker'`,
    );
    expect(rows.length).toBeGreaterThan(0);
    const asked = performance.now();
    for (const { pid } of rows) process.kill(pid, 'SIGSTOP');
    const answer = store.ready().catch((error) => error);
    expect(await answer).toMatchObject({ code: 'database-unavailable' });
    for (const { pid } of rows) process.kill(pid, 'SIGCONT');
    expect(performance.now() - asked).toBeLessThan(9000);
    await store.ready();
  });

  it('a job written while the clock was a day ahead is taken after it is put right', async () => {
    await store.enqueue('import', { runId: 'r', importId: 'i', actor: 'a' });
    await raw.query(`update pgboss.job set start_after = now() + interval '1 day' where name = 'import'`);
    await raw.query(
      `update pgboss.version set maintained_on = now() + interval '1 day', cron_on = now() + interval '1 day'`,
    );
    const taken = await new Promise((resolve) =>
      store.queue.take('import', 0.2, async (data) => resolve(data)),
    );
    expect(taken).toMatchObject({ runId: 'r' });
    await vi.waitFor(async () => {
      const { rows } = await raw.query(
        'select maintained_on <= now() and cron_on <= now() as well from pgboss.version',
      );
      expect(rows).toEqual([{ well: true }]);
    });
  });
});
