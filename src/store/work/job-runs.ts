import { randomUUID } from 'node:crypto';
import { type Selectable, sql } from 'kysely';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { JobRun, Store } from '../contract.js';
import { notFound } from '../refusals.js';
import type { Tables } from '../tables.js';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of queries, each short
export const jobRunsRepository = (db: Database): Store['jobRuns'] => ({
  async latest(kind) {
    const rows = await db
      .selectFrom('job_runs')
      .selectAll()
      .$if(!!kind, (q) => q.where('kind', '=', kind!))
      .orderBy('seq', 'desc')
      .limit(20)
      .execute();
    return rows.map(runOf);
  },

  async get(id) {
    const row = await db.selectFrom('job_runs').selectAll().where('id', '=', id).executeTakeFirst();
    if (!row) throw notFound('job run');
    return runOf(row);
  },

  begin: (kind, now) =>
    atomically(db, async (tx) => {
      await takeTurn(tx);
      const open = await tx
        .selectFrom('job_runs')
        .select('id')
        .where('kind', '=', kind)
        .where('status', 'in', ['queued', 'running'])
        .executeTakeFirst();
      if (open && kind !== 'import') return null;
      const id = randomUUID();
      await tx.insertInto('job_runs').values({ id, kind, status: 'queued', started_at: now }).execute();
      return id;
    }),

  async setTotal(id, total) {
    await db
      .updateTable('job_runs')
      .set({ total, status: 'running' })
      .where('id', '=', id)
      .where('status', 'in', ['queued', 'running'])
      .execute();
  },

  async say(id, message) {
    await db
      .updateTable('job_runs')
      .set({ message })
      .where('id', '=', id)
      .where('status', 'in', ['queued', 'running'])
      .execute();
  },

  partDone: (id, part, count) =>
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

  async isPartDone(id, part) {
    const row = await db
      .selectFrom('job_run_parts')
      .select('part')
      .where('run_id', '=', id)
      .where('part', '=', part)
      .executeTakeFirst();
    return row !== undefined;
  },

  end: (id, status, message, now) =>
    atomically(db, async (tx) => {
      await takeTurn(tx);
      await tx
        .updateTable('job_runs')
        .set({ status, message, finished_at: now })
        .where('id', '=', id)
        .where('status', 'in', ['queued', 'running'])
        .execute();
    }),
});

/** Beginning and ending wait for each other, so that nobody joins a run that has just ended. */
const takeTurn = (tx: Database) =>
  sql`select pg_advisory_xact_lock(hashtext('doorpost-job-runs'))`.execute(tx);

const runOf = (r: Selectable<Tables['job_runs']>): JobRun => ({
  id: r.id,
  kind: r.kind,
  status: r.status,
  done: r.done,
  total: r.total,
  message: r.message,
  startedAt: r.started_at.toISOString(),
  finishedAt: r.finished_at?.toISOString() ?? null,
});
