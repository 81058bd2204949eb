import type { Selectable } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { readingFaults } from '../../records/check/reading-faults.js';
import { refuse } from '../../records/check/refuse.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Actor, MeasurementRevision, Store } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import type { Tables } from '../tables.js';
import { appended } from './appended.js';
import { changedMeanwhile, notFound, requireChild } from './require-child.js';
import { measurementColumns, measurementOf } from './row-records.js';

type Row = Selectable<Tables['measurements']>;

const revisionOf = (row: Row): MeasurementRevision => ({
  measurement: measurementOf(row),
  revision: row.revision,
  withdrawn: row.withdrawn,
  reason: row.reason,
  by: row.recorded_by,
  at: row.recorded_at.toISOString(),
});

export const measurementsRepository = (db: Database): Store['measurements'] => ({
  async revisions(id, actor) {
    const rows = await allRevisions(db, id);
    await writeAudit(db, actor, 'read', 'measurement', { childId: rows[0].child_id });
    return rows.map(revisionOf);
  },

  async corrected(childId, actor) {
    await requireChild(db, childId);
    const rows = await db
      .selectFrom('measurements')
      .selectAll()
      .where('child_id', '=', childId)
      .where('id', 'in', (q) =>
        q.selectFrom('measurements').select('id').where('child_id', '=', childId).where('revision', '>', 1),
      )
      .orderBy('id')
      .orderBy('revision')
      .execute();
    await writeAudit(db, actor, 'read', 'corrections', { childId });
    return rows.map(revisionOf);
  },

  correct: (id, correction, today, expected, actor) =>
    atomically(db, async (tx) => {
      const last = (await allRevisions(tx, id)).at(-1)!;
      const child = await requireChild(tx, last.child_id, 'update');
      if (expected !== null && expected !== last.revision) throw changedMeanwhile(expected, last.revision);
      const { reason, withdrawn = false, ...change } = correction;
      const next = { ...measurementOf(last), ...change };
      if (!withdrawn) refuse(readingFaults(next, child.value.birthDate, today));
      return addRevision(
        tx,
        last,
        { ...last, ...measurementColumns(next), extra: last.extra, withdrawn, reason },
        actor,
      );
    }),

  undoCorrection: (id, today, actor) =>
    atomically(db, async (tx) => {
      const revisions = await allRevisions(tx, id);
      const [before, last] = [revisions.at(-2), revisions.at(-1)!];
      if (!before) throw new DoorpostError('nothing-to-undo', 'This reading was never corrected');
      const child = await requireChild(tx, last.child_id, 'update');
      if (!before.withdrawn) refuse(readingFaults(measurementOf(before), child.value.birthDate, today));
      return addRevision(tx, last, { ...before, reason: `back to revision ${before.revision}` }, actor);
    }),
});

async function allRevisions(db: Database, id: string): Promise<Row[]> {
  const rows = await db
    .selectFrom('measurements')
    .selectAll()
    .where('id', '=', id)
    .orderBy('revision')
    .execute();
  if (rows.length === 0) throw notFound('measurement');
  return rows;
}

async function addRevision(tx: Database, last: Row, next: Row, actor: Actor): Promise<MeasurementRevision> {
  const { seq: _seq, recorded_at: _at, ...columns } = next;
  const added = await tx
    .insertInto('measurements')
    .values({
      ...columns,
      extra: JSON.stringify(next.extra),
      ...appended(actor, last, next),
    })
    .onConflict((c) => c.doNothing())
    .returningAll()
    .executeTakeFirst();
  if (!added) throw changedMeanwhile(last.revision, last.revision + 1);
  await writeAudit(tx, actor, next.withdrawn ? 'withdraw' : 'correct', 'measurement', {
    childId: last.child_id,
    measurementId: last.id,
    revision: added.revision,
  });
  return revisionOf(added);
}
