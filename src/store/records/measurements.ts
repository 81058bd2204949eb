import type { IsoDate } from '../../records/dates.js';
import type { Measurement } from '../../records/records.js';
import { readOfChild, writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { Actor, Correction, Expected, MeasurementRevision } from '../shapes.js';
import { measurementsTable } from './caseload-tables.js';
import { allRevisions, corrections, type RevisedKind, type RevisedRow, revisionOf } from './revised.js';

export const readingKind: RevisedKind<Measurement> = {
  part: 'measurements',
  at: measurementsTable,
  audited: ({ id }) => ({ measurementId: id }),
};

const shown = (row: RevisedRow): MeasurementRevision => ({
  measurement: measurementsTable.of(row),
  ...revisionOf(row),
});

export const measurementsRepository = (db: Database) => ({
  async revisions(id: string, actor: Actor): Promise<readonly MeasurementRevision[]> {
    const rows = await allRevisions(db, readingKind, id);
    await writeAudit(db, actor, 'read', 'measurement', { childId: rows[0].child_id });
    return rows.map(shown);
  },

  /** Every reading ever corrected of a child, for display beside the chart. */
  async corrected(childId: string, actor: Actor): Promise<readonly MeasurementRevision[]> {
    const revisions = db
      .selectFrom('measurements')
      .selectAll()
      .where('child_id', '=', childId)
      .where('id', 'in', (q) =>
        q.selectFrom('measurements').select('id').where('child_id', '=', childId).where('revision', '>', 1),
      )
      .orderBy('id')
      .orderBy('revision');
    return (await readOfChild<RevisedRow>(db, childId, 'corrections', actor, revisions)).map(shown);
  },

  correct: async (
    id: string,
    correction: Correction,
    today: IsoDate,
    expectedRevision: Expected,
    actor: Actor,
  ) => shown(await corrections(db, readingKind).correct(id, correction, today, expectedRevision, actor)),
  /** Back to the revision before, itself as a new revision. */
  undoCorrection: async (id: string, today: IsoDate, actor: Actor) =>
    shown(await corrections(db, readingKind).undoCorrection(id, today, actor)),
});
