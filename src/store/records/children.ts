import { type SqlBool, sql } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { groupByChild } from '../../records/caseload.js';
import { childFaults } from '../../records/check/child-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Child } from '../../records/records.js';
import { avoidsLatex, childRecord } from '../../records/records.js';
import { atomically } from '../atomically.js';
import { readColumnsOfChild, writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { pageLimit, readCursor, toPage } from '../page-cursor.js';
import { refuseStale } from '../refusals.js';
import type { Actor, ChildSearch, ChildSummary, Expected, Page, PageRequest, Versioned } from '../shapes.js';
import { childrenTable } from './caseload-tables.js';
import { eraseChild } from './erase-child.js';
import { addInPlace, changeInPlace } from './in-place.js';
import { caseloadOf, partsOf, type RowsByPart } from './load-caseload.js';
import { initialsPattern, nameSearch, wordPattern } from './name-search.js';
import { requireChild } from './require-child.js';
import { childVisibleTo, recordVisibleTo } from './visible-to.js';

export const childrenRepository = (db: Database) => ({
  search: (search: ChildSearch, page: PageRequest, actor: Actor) => searchChildren(db, search, page, actor),

  /** What these children are called, by id. */
  async names(childIds: readonly string[], actor: Actor): Promise<ReadonlyMap<string, string>> {
    if (childIds.length === 0) return new Map();
    const rows = await db
      .selectFrom('children')
      .select(['id', sql<string>`data ->> 'name'`.as('name')])
      .where('id', 'in', childIds)
      .execute();
    await writeAudit(db, actor, 'list', 'children', { childIds: rows.map((r) => r.id) });
    return new Map(rows.map((r) => [r.id, r.name]));
  },

  async count(search: ChildSearch) {
    const row = await matching(db, search)
      .select(sql<number>`count(*)::int`.as('n'))
      .executeTakeFirstOrThrow();
    return row.n;
  },

  /** Throws 'not-found'. A scheduler or administrator gets it without diagnosis detail (conditions, markers, notes). */
  record: async (childId: string, actor: Actor) => (await readRecord(db, childId, actor)).seen,

  /** By one read: as this actor may see it, and whole, for what is decided of the child whoever looks. */
  recordToDecide: (childId: string, actor: Actor) => readRecord(db, childId, actor),

  async get(childId: string, actor: Actor): Promise<Versioned<Child>> {
    const found = await requireChild(db, childId);
    await writeAudit(db, actor, 'read', 'child', { childId });
    return { value: childVisibleTo(actor, found.value), version: found.version };
  },

  create: (child: Child, today: IsoDate, actor: Actor): Promise<Versioned<Child>> =>
    atomically(db, async (tx) => {
      refuse(childFaults(child, today));
      await refuseTombstone(tx, [child.id]);
      const added = await addInPlace(tx, childrenTable, child, child.id);
      await writeAudit(tx, actor, 'create', 'child', { childId: child.id });
      return added;
    }),

  change: (
    childId: string,
    change: Partial<Child>,
    today: IsoDate,
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<Child>> =>
    atomically(db, async (tx) => {
      const before = await requireChild(tx, childId, 'update');
      refuseStale(expected, before.version);
      const value = childRecord.parse({ ...before.value, ...change, id: childId });
      const first = change.birthDate ? (await firstEntries(tx, [childId])).get(childId) : undefined;
      refuse(childFaults(value, today, first));
      const { version } = await changeInPlace(tx, childrenTable, value, childId, before.version);
      await writeAudit(tx, actor, 'change', 'child', { childId, fields: Object.keys(change), version });
      return { value: childVisibleTo(actor, value), version };
    }),

  /** Removes the record for good and leaves a tombstone (id, when, by, reason). */
  erase: (childId: string, reason: string, actor: Actor) =>
    atomically(db, (tx) => eraseChild(tx, childId, reason, actor)),
});

async function readRecord(db: Database, childId: string, actor: Actor) {
  const rows = await readColumnsOfChild<RowsByPart>(db, childId, 'child-record', actor, partsOf([childId]));
  const whole = groupByChild(caseloadOf(rows))[0];
  return { whole, seen: recordVisibleTo(actor, whole) };
}

async function searchChildren(
  db: Database,
  search: ChildSearch,
  page: PageRequest,
  actor: Actor,
): Promise<Page<ChildSummary>> {
  const limit = pageLimit(page);
  const bySoonest = search.sort === 'soonest';
  const sortKey = bySoonest
    ? sql<string>`coalesce(a.soonest_key::text, '9999-12-31')`
    : sql<string>`c.name_key`;
  const after = readCursor(page, 2);
  const rows = await matching(db, search)
    .leftJoin('assessments as a', 'a.child_id', 'c.id')
    .select(['c.id', 'c.data', 'c.version', 'a.soonest', sortKey.as('sort_key')])
    .select([
      sql<string | null>`(select max(m.date) from current_measurements m where m.child_id = c.id)`.as(
        'last_visit',
      ),
      sql<number>`(select count(*)::int from devices d where d.child_id = c.id and d.status = 'worn')`.as(
        'devices_in_use',
      ),
    ])
    .$if(!!after, (q) => q.where(sql<SqlBool>`(${sortKey}, c.id) > (${after?.[0]}, ${after?.[1]})`))
    .orderBy('sort_key')
    .orderBy('c.id')
    .limit(limit + 1)
    .execute();
  const found = toPage(
    rows,
    limit,
    (r) => [r.sort_key, r.id],
    (r): ChildSummary => ({
      id: r.id,
      name: r.data.name,
      birthDate: r.data.birthDate,
      sex: r.data.sex,
      status: r.data.status,
      insensateSkin: r.data.insensateSkin,
      latexAlert: avoidsLatex(r.data),
      lastVisit: r.last_visit,
      devicesInUse: r.devices_in_use,
      soonest: r.soonest,
      version: r.version,
    }),
  );
  await writeAudit(db, actor, 'list', 'children', { childIds: found.items.map((c) => c.id) });
  return found;
}

/** The query both the list and its count start from. */
function matching(db: Database, search: ChildSearch) {
  let query = db.selectFrom('children as c');
  const status = search.status ?? 'active';
  if (status !== 'any') query = query.where('c.status', '=', status);
  const { words, birthDates } = nameSearch(search.text ?? '');
  for (const dates of birthDates) query = query.where('c.birth_date', 'in', dates);
  for (const word of words) query = query.where(sql<SqlBool>`(${nameFits(word, search.slip ?? false)})`);
  if (search.family)
    query = query.where((e) =>
      e.exists(
        e
          .selectFrom('devices as d')
          .select(sql`1`.as('one'))
          .whereRef('d.child_id', '=', 'c.id')
          .where('d.family', '=', search.family!)
          .where('d.status', '=', 'worn'),
      ),
    );
  return query;
}

/** A word of the name, the number's beginning, or the initials forwards and backwards. */
function nameFits(word: string, slip: boolean) {
  const number = `${word.replace(/[\\%_]/g, '\\$&')}%`;
  const either = [wordPattern(word, slip), ...[word, [...word].reverse().join('')].map(initialsPattern)];
  return sql.join(
    [
      sql`lower(c.id) like ${number}`,
      ...either.flatMap((pattern) => (pattern === null ? [] : [sql`c.name_key ~ ${pattern}`])),
    ],
    sql` or `,
  );
}

/** The first day on which anything was measured or cast, of the children of whom anything was. */
export async function firstEntries(db: Database, ids: readonly string[]): Promise<Map<string, IsoDate>> {
  const { rows } = await sql<{ child_id: string; first: string }>`
    select child_id, min(day)::text as first from (
      select child_id, date as day from current_measurements where child_id = any(${ids})
      union all
      select child_id, (data->>'castDate')::date from devices where child_id = any(${ids})
    ) entries group by child_id`.execute(db);
  return new Map(rows.map((r) => [r.child_id, r.first]));
}

/** An erased child does not come back by an old file. */
export async function refuseTombstone(db: Database, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  const erased = await db.selectFrom('tombstones').select('child_id').where('child_id', 'in', ids).execute();
  if (erased.length > 0)
    throw new DoorpostError(
      'already-there',
      `${erased.length} record(s) with this id were erased and stay erased`,
      {
        field: 'id',
        given: erased
          .slice(0, 5)
          .map((r) => r.child_id)
          .join(', '),
        accepted: 'a new id',
      },
    );
}
