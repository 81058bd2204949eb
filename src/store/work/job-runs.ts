import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import { recordOf } from '../record-of.js';
import { notFound } from '../refusals.js';
import type { JobRun } from '../shapes.js';

const SHOWN = ['id', 'kind', 'status', 'done', 'total', 'message', 'started_at', 'finished_at'] as const;

const OPEN = ['queued', 'running'] as const;

export const jobRunsRepository = (db: Database) => ({
  /** Newest first, 20 of them; of one kind if given. */
  async latest(kind?: JobRun['kind']): Promise<readonly JobRun[]> {
    const rows = await db
      .selectFrom('job_runs')
      .select(SHOWN)
      .$if(!!kind, (q) => q.where('kind', '=', kind!))
      .orderBy('seq', 'desc')
      .limit(20)
      .execute();
    return rows.map(recordOf);
  },

  async get(id: string): Promise<JobRun> {
    const row = await db.selectFrom('job_runs').select(SHOWN).where('id', '=', id).executeTakeFirst();
    if (!row) throw notFound('job run');
    return recordOf(row);
  },

  /** The id of a new run, or null when one of this kind is still queued or running (no double work). */
  begin: (kind: JobRun['kind'], now: Date): Promise<string | null> =>
    atomically(db, async (tx) => {
      await takeTurn(tx);
      const open = await tx
        .selectFrom('job_runs')
        .select('id')
        .where('kind', '=', kind)
        .where('status', 'in', OPEN)
        .executeTakeFirst();
      if (open && kind !== 'import') return null;
      const id = randomUUID();
      await tx.insertInto('job_runs').values({ id, kind, status: 'queued', started_at: now }).execute();
      return id;
    }),

  async setTotal(id: string, total: number) {
    await openRun(db, id).set({ total, status: 'running' }).execute();
  },

  /** What it is at, in words, while it runs. */
  async setMessage(id: string, message: string) {
    await openRun(db, id).set({ message }).execute();
  },

  /** Books part `part` with `count` done, once however often it is called. `complete`: all of the total is done. */
  partDone: (id: string, part: number, count: number) =>
    atomically(db, async (tx) => {
      const first = await tx
        .insertInto('job_run_parts')
        .values({ run_id: id, part })
        .onConflict((c) => c.doNothing())
        .returning('part')
        .executeTakeFirst();
      const run = await tx
        .updateTable('job_runs')
        .set({ done: sql<number>`done + ${first ? count : 0}` })
        .where('id', '=', id)
        .returning(['done', 'total'])
        .executeTakeFirst();
      return { first: first !== undefined, complete: run !== undefined && run.done >= run.total };
    }),

  async isPartDone(id: string, part: number) {
    const row = await db
      .selectFrom('job_run_parts')
      .select('part')
      .where('run_id', '=', id)
      .where('part', '=', part)
      .executeTakeFirst();
    return row !== undefined;
  },

  end: (id: string, status: 'done' | 'failed', message: string, now: Date) =>
    atomically(db, async (tx) => {
      await takeTurn(tx);
      await openRun(tx, id).set({ status, message, finished_at: now }).execute();
    }),
});

/** A run that has ended stays as it ended. */
const openRun = (db: Database, id: string) =>
  db.updateTable('job_runs').where('id', '=', id).where('status', 'in', OPEN);

/** Beginning and ending wait for each other, so that nobody joins a run that has just ended. */
const takeTurn = (tx: Database) =>
  sql`select pg_advisory_xact_lock(hashtext('doorpost-job-runs'))`.execute(tx);
