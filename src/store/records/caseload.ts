import { sql } from 'kysely';
import type { Caseload } from '../../records/caseload.js';
import { groupByChild } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import { rowsVersion, sweepChanges } from '../rows-version.js';
import type { Actor, VisitDays } from '../shapes.js';
import { loadCaseload, loadCaseloadOf } from './load-caseload.js';
import { writeCaseload } from './write-caseload.js';

const CHUNK = 200;
/** Read by the web server among its pages: a part takes it some milliseconds. */
const SMALL_CHUNK = 50;
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

export const caseloadRepository = (db: Database) => ({
  /** Ids of active children (of all, with 'any'), ascending. */
  async ids(status?: 'any') {
    const rows = await db
      .selectFrom('children')
      .select('id')
      .$if(status !== 'any', (q) => q.where('status', '=', 'active'))
      .orderBy('id')
      .execute();
    return rows.map((r) => r.id);
  },
  async records(ids: readonly string[]) {
    const records = [];
    for (let i = 0; i < ids.length; i += CHUNK)
      records.push(...groupByChild(await loadCaseloadOf(db, ids.slice(i, i + CHUNK))));
    return records;
  },
  all: () => loadCaseload(db),
  /** Every child with its devices and what came of them, some children after another. */
  async *devicesByPart(): AsyncGenerator<Pick<Caseload, 'children' | 'devices' | 'events'>> {
    const ids = await this.ids('any');
    for (let i = 0; i < ids.length; i += SMALL_CHUNK)
      yield await loadCaseloadOf(db, ids.slice(i, i + SMALL_CHUNK), ['children', 'devices', 'events']);
  },
  /** Days on which active children were measured: how many in all since a day, and each child's last. */
  async visitDays(since: IsoDate, until: IsoDate): Promise<VisitDays> {
    const [{ visits }, last] = await Promise.all([
      db
        .selectFrom((q) =>
          q
            .selectFrom('current_measurements')
            .select(['child_id', 'date'])
            .where('date', '>', since)
            .where('date', '<=', until)
            .groupBy(['child_id', 'date'])
            .as('days'),
        )
        .select(sql<number>`count(*)::int`.as('visits'))
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
  /** Changes whenever anything a person entered, or a forecast or recall list, does. */
  version: async () =>
    (await db.selectNoFrom(rowsVersion(TABLES).as('version')).executeTakeFirstOrThrow()).version,
  /** Forgets changes so old that nobody has kept an answer since. */
  sweepChanges: (before: Date) => sweepChanges(db, before),
  /**
   * Adds what is new and changes what differs, by id; rows not given stay. Append-only rows that differ get a new
   * revision with this reason. Whole or not at all. Rows may come in parts, what one belongs to before it.
   */
  write: (
    rows: Partial<Caseload> | AsyncIterable<Partial<Caseload>>,
    reason: string,
    today: IsoDate,
    actor: Actor,
  ) =>
    atomically(db, (tx) =>
      writeCaseload(tx, Symbol.asyncIterator in rows ? rows : [rows], reason, today, actor),
    ),
});
