import { randomUUID } from 'node:crypto';
import { type SelectQueryBuilder, type SqlBool, sql } from 'kysely';
import { DoorpostError } from '../../errors.js';
import type { EarlierVisit } from '../../recall/carry-over.js';
import type { RecallEntry, WorkState } from '../../recall/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { newestFirst } from '../page-cursor.js';
import { recordOf } from '../record-of.js';
import { notFound, refuseStale } from '../refusals.js';
import type {
  Actor,
  Expected,
  NewRecallRun,
  PageRequest,
  RecallFilter,
  RecallListName,
  RecallRow,
  RecallRun,
  RunHead,
} from '../shapes.js';
import { keptByStanding } from '../standing.js';
import { earlierVisits } from './earlier-visits.js';
import { entryData } from './entry-data.js';
import { entriesFound, recallBriefs } from './recall-briefs.js';
import { canBeUndone, recallEntryRows } from './recall-entry-rows.js';
import { saveRecallRun } from './save-recall-run.js';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of queries, each short
export const recallRepository = (db: Database) => ({
  async latestRun() {
    const row = await runs(db).orderBy('seq', 'desc').limit(1).executeTakeFirst();
    return row ? runOf(row) : null;
  },

  /** The list in use and the one before it, newest first, without what must be counted. */
  inUse: () => inUse(db),

  async runs(page: PageRequest) {
    return newestFirst(runs(db), page, runOf);
  },

  async run(runId: string) {
    const row = await runs(db).where('id', '=', runId).executeTakeFirst();
    if (!row) throw notFound('recall run');
    return runOf(row);
  },

  /** The whole list in its planned order. */
  async entries(runId: string, filter: RecallFilter, actor: Actor) {
    if (filter.ids?.length === 0) return [];
    let query = rowsWithChild(db).where('e.run_id', '=', runId);
    const asked = [
      ['e.list', filter.list],
      ['e.state', filter.state],
      ['e.action', filter.action],
      ['e.overdue', filter.overdue],
      ['e.child_id', filter.childId],
    ] as const;
    for (const [column, value] of asked)
      if (value !== undefined && value !== '') query = query.where(column, '=', value);
    if (filter.due) query = query.where('e.list', '<>', 'open');
    if (filter.ids) query = query.where(sql<SqlBool>`e.id = any(${filter.ids})`);
    // Checked when the list is used, not when it was made: who died or moved away is on no list, letter or calendar.
    const rows = await query.where('c.status', '=', 'active').orderBy('e.position').execute();
    await writeAudit(db, actor, 'list', 'recall-entries', {
      childIds: rows.map((row) => row.child_id),
      runId,
    });
    const data = await entryData(
      db,
      rows.map((row) => row.id),
    );
    return rows.flatMap((row) => rowOf(row, data.get(row.id)) ?? []);
  },

  /** The same in brief. `text`: only whose name, number or contact holds it. Not audited: it names nobody. */
  async briefs(runId: string, filter: Pick<RecallFilter, 'due'> & { readonly text?: string }) {
    const text = (filter.text ?? '').trim();
    const [briefs, found] = await Promise.all([
      recallBriefs(db, runId),
      text === '' ? null : entriesFound(db, runId, text),
    ]);
    const asked = filter.due ? briefs.due : briefs.all;
    return found ? asked.filter((r) => found.has(r.id)) : asked;
  },

  async entry(entryId: string, actor: Actor) {
    const row = await requireEntry(db, entryId);
    await writeAudit(db, actor, 'read', 'recall-entry', { childId: row.childId });
    return row;
  },

  /** Keeps a finished list in one piece; what people did with the list before is carried over (recall/carry-over.ts). */
  save: (
    run: NewRecallRun,
    entries: readonly { readonly list: RecallListName; readonly entry: RecallEntry }[],
  ) =>
    atomically(db, async (tx) => {
      const id = randomUUID();
      await saveRecallRun(tx, id, run, entries);
      return runOf(await runs(tx).where('id', '=', id).executeTakeFirstOrThrow());
    }),

  /** How far people came with the latest list, for the plan of the next; empty before the first. */
  earlierVisits: (): Promise<readonly EarlierVisit[]> => earlierVisits(db),

  /** `appointment`: the day booked; left out it stays as it was. */
  setState: (
    entryId: string,
    change: { readonly state: WorkState; readonly note: string; readonly appointment?: IsoDate | null },
    expected: Expected,
    actor: Actor,
  ) =>
    atomically(db, async (tx) => {
      const before = await lockEntry(tx, entryId);
      refuseStale(expected, before.version);
      const appointment = change.appointment === undefined ? before.appointment : change.appointment;
      await moveTo(tx, before, { ...change, appointment, undoes: null }, actor);
      return requireEntry(tx, entryId);
    }),

  /** Takes the last state change of this entry back; throws 'nothing-to-undo'. */
  undo: (entryId: string, actor: Actor) =>
    atomically(db, async (tx) => {
      const before = await lockEntry(tx, entryId);
      const last = await tx
        .selectFrom('recall_state_changes as s')
        .selectAll()
        .where('entry_id', '=', entryId)
        .where(canBeUndone)
        .orderBy('seq', 'desc')
        .limit(1)
        .executeTakeFirst();
      if (!last) throw new DoorpostError('nothing-to-undo', 'No change of state is left to take back here');
      await moveTo(
        tx,
        before,
        { state: last.from_state, note: 'undone', appointment: last.from_appointment, undoes: last.seq },
        actor,
      );
      return requireEntry(tx, entryId);
    }),
});

async function moveTo(
  tx: Database,
  before: Awaited<ReturnType<typeof lockEntry>>,
  to: { state: WorkState; note: string; appointment: IsoDate | null; undoes: string | null },
  actor: Actor,
): Promise<void> {
  await tx
    .insertInto('recall_state_changes')
    .values({
      entry_id: before.id,
      child_id: before.child_id,
      from_state: before.state,
      from_appointment: before.appointment,
      to_state: to.state,
      note: to.note,
      by_name: actor.name,
      undoes_seq: to.undoes,
    })
    .execute();
  await tx
    .updateTable('recall_entries')
    .set({ state: to.state, appointment: to.appointment, version: before.version + 1 })
    .where('id', '=', before.id)
    .execute();
  await writeAudit(tx, actor, to.undoes ? 'undo' : 'change', 'recall-entry', {
    childId: before.child_id,
    entryId: before.id,
    from: before.state,
    to: to.state,
  });
}

async function lockEntry(tx: Database, id: string) {
  const row = await tx
    .selectFrom('recall_entries')
    .select(['id', 'child_id', 'state', 'appointment', 'version'])
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst();
  if (!row) throw notFound('recall entry');
  return row;
}

const heads = (db: Database) =>
  db
    .selectFrom('recall_runs as r')
    .select(['seq', 'id', 'today', 'month', 'summary', 'model_version', 'seed', 'created_at']);
const runs = (db: Database) =>
  heads(db).select([
    sql<number>`(select count(*)::int from recall_entries e where e.run_id = r.id and e.list <> 'open')`.as(
      'entries',
    ),
    sql<number>`(select count(*)::int from recall_entries e where e.run_id = r.id and e.overdue)`.as(
      'overdue',
    ),
  ]);

type RowOf<Q extends { executeTakeFirstOrThrow(): Promise<unknown> }> = Awaited<
  ReturnType<Q['executeTakeFirstOrThrow']>
>;
const headOf = ({ seq, ...row }: RowOf<ReturnType<typeof heads>>): RunHead => ({
  ...recordOf(row),
  seed: Number(row.seed),
});
const runOf = ({ entries, overdue, ...head }: RowOf<ReturnType<typeof runs>>): RecallRun => ({
  ...headOf(head),
  entries,
  overdue,
});

/** Kept: what is said of a plan of thousands takes longer to read than everything else of a page. */
const inUse = keptByStanding(
  'runs',
  async (db): Promise<readonly RunHead[]> =>
    (await heads(db).orderBy('seq', 'desc').limit(2).execute()).map(headOf),
);

/** With what a line says of the child. */
const rowsWithChild = (db: Database) =>
  recallEntryRows(db).select([
    sql<string>`c.data ->> 'name'`.as('childName'),
    sql<string>`c.data ->> 'contact'`.as('contact'),
    sql<string>`c.data ->> 'clinician'`.as('clinician'),
    sql<string>`c.data ->> 'language'`.as('language'),
    sql<number[]>`c.data -> 'transportDays'`.as('transportDays'),
  ]);
type EntryRow =
  ReturnType<typeof rowsWithChild> extends SelectQueryBuilder<infer _D, infer _T, infer R> ? R : never;

/** Nothing where the entry went meanwhile, as one of a child that is erased does. */
const rowOf = (
  { note, by_name, at, ...row }: EntryRow,
  entry: RecallEntry | undefined,
): RecallRow | undefined =>
  entry && {
    ...recordOf(row),
    entry,
    stateNote: note ?? '',
    stateBy: by_name ?? '',
    stateAt: at?.toISOString() ?? null,
  };

async function requireEntry(db: Database, id: string): Promise<RecallRow> {
  const found = await rowsWithChild(db).where('e.id', '=', id).executeTakeFirst();
  const row = found && rowOf(found, (await entryData(db, [id])).get(id));
  if (!row) throw notFound('recall entry');
  return row;
}
