import { sql } from 'kysely';
import { groupByChild } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { rowsVersion, sweepChanges } from '../rows-version.js';
import { loadCaseload } from './load-caseload.js';
import { workshopJobsRepository } from './workshop-jobs.js';
import { writeCaseload } from './write-caseload.js';

const CHUNK = 1000;
/** What the counts of a clinic are made of. */
const TABLES = [
  'children',
  'measurements',
  'devices',
  'device_events',
  'workshop_jobs',
  'forecast_history',
  'assessments',
  'recall_runs',
  'recall_entries',
] as const;

export const caseloadRepository = (db: Database): Store['caseload'] => ({
  async ids(status) {
    const rows = await db
      .selectFrom('children')
      .select('id')
      .$if(status !== 'any', (q) => q.where('status', '=', 'active'))
      .orderBy('id')
      .execute();
    return rows.map((r) => r.id);
  },
  async records(ids) {
    const records = [];
    for (let i = 0; i < ids.length; i += CHUNK)
      records.push(...groupByChild(await loadCaseload(db, ids.slice(i, i + CHUNK))));
    return records;
  },
  async present(ids) {
    if (ids.length === 0) return [];
    const rows = await db.selectFrom('children').select('id').where('id', 'in', ids).execute();
    return rows.map((r) => r.id);
  },
  all: () => loadCaseload(db),
  devices: async () => ({
    ...(await loadCaseload(db, undefined, ['children', 'devices', 'events'])),
    jobs: await workshopJobsRepository(db).all(),
  }),
  async visitDays(since, until) {
    const [{ visits }, last] = await Promise.all([
      db
        .selectFrom('current_measurements')
        .select(sql<number>`count(distinct (child_id, date))::int`.as('visits'))
        .where('date', '>', since)
        .where('date', '<=', until)
        .executeTakeFirstOrThrow(),
      db
        .selectFrom('children as c')
        .leftJoin('current_measurements as m', 'm.child_id', 'c.id')
        .where('c.status', '=', 'active')
        .groupBy('c.id')
        .select(['c.id as childId', sql<IsoDate | null>`max(m.date)`.as('date')])
        .execute(),
    ]);
    return { visits, last };
  },
  version: () => rowsVersion(db, TABLES),
  sweepChanges: (before) => sweepChanges(db, before),
  write: (rows, reason, today, actor) =>
    atomically(db, (tx) => writeCaseload(tx, rows, reason, today, actor)),
});
