import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { readingFaults } from '../../records/check/reading-faults.js';
import { dateFaults, refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Measurement } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { notFound } from '../refusals.js';
import type { Actor, NewVisit, Visit } from '../shapes.js';
import { measurementsTable } from './caseload-tables.js';
import { eventKind } from './events.js';
import { readingKind } from './measurements.js';
import { requireChild } from './require-child.js';
import { appended, corrections, type RevisedKind, type RevisedRow } from './revised.js';
import { skinCheckKind } from './skin-checks.js';

export const visitsRepository = (db: Database) => ({
  /** Newest first. */
  async list(childId: string, actor: Actor): Promise<readonly Visit[]> {
    await requireChild(db, childId);
    const rows = await db
      .selectFrom('current_measurements')
      .selectAll()
      .where('child_id', '=', childId)
      .orderBy('date', 'desc')
      .orderBy('seq')
      .execute();
    await writeAudit(db, actor, 'read', 'visits', { childId });
    const byDate = groupBy(
      rows.map((row) => measurementsTable.of({ ...row })),
      (m) => m.date,
    );
    return [...byDate].map(([date, measurements]) => ({ date, measurements }));
  },

  /** Everything a visit found goes to another day; gives how many entries that were. */
  move: (
    childId: string,
    move: { readonly from: IsoDate; readonly to: IsoDate; readonly reason: string },
    today: IsoDate,
    actor: Actor,
  ) => moveVisit(db, childId, move, today, actor),

  /** Checks every reading (side, plausible range, date not before birth or after today); all or none are stored. */
  add: (childId: string, visit: NewVisit, today: IsoDate, actor: Actor): Promise<readonly Measurement[]> =>
    atomically(db, async (tx) => {
      const child = await requireChild(tx, childId, 'share');
      if (visit.measurements.length === 0)
        throw new DoorpostError('invalid-value', 'A visit needs at least one reading', {
          field: 'measurements',
          given: 'none',
          accepted: 'one reading or more',
        });
      const readings = visit.measurements.map((reading, i): Measurement => {
        const measurement = {
          id: randomUUID(),
          childId,
          measure: reading.measure,
          side: reading.side,
          value: reading.value,
          date: visit.date,
          method: reading.method ?? visit.method ?? '',
          observer: visit.observer ?? '',
          technicalError: reading.technicalError ?? null,
          entered: reading.entered ?? '',
          extra: {},
        };
        refuse(readingFaults(measurement, child.value.birthDate, today), i + 1);
        return measurement;
      });
      await tx
        .insertInto('measurements')
        .values(
          readings.map((m) => ({ ...measurementsTable.columns(m, childId), ...appended(actor) })) as never,
        )
        .execute();
      await writeAudit(tx, actor, 'create', 'visit', {
        childId,
        date: visit.date,
        measurementIds: readings.map((m) => m.id),
      });
      return readings;
    }),
});

/** A visit entered on the wrong day: its readings, skin checks and judgements of fit go to the right one together. */
const moveVisit = (
  db: Database,
  childId: string,
  { from, to, reason }: { from: IsoDate; to: IsoDate; reason: string },
  today: IsoDate,
  actor: Actor,
): Promise<number> =>
  atomically(db, async (tx) => {
    const child = await requireChild(tx, childId, 'update');
    refuse(dateFaults('Visit', 'date', to, { from: child.value.birthDate, since: 'birth', today }));
    const move = async <T extends { id: string; date: IsoDate }>(
      kind: RevisedKind<T>,
      belongs: (record: T) => boolean = () => true,
    ): Promise<number> => {
      const { rows } = await sql<RevisedRow>`select * from ${sql.table(kind.at.current)}
        where child_id = ${childId} and date = ${from} order by seq`.execute(tx);
      const found = rows.map(kind.at.of).filter(belongs);
      const change = { date: to, reason } as unknown as Partial<T> & { reason: string };
      for (const { id } of found) await corrections(tx, kind).correct(id, change, today, null, actor);
      return found.length;
    };
    const moved =
      (await move(readingKind)) +
      (await move(eventKind, ({ kind }) => kind === 'verdict')) +
      (await move(skinCheckKind));
    if (moved === 0) throw notFound('visit on that day');
    await writeAudit(tx, actor, 'correct', 'visit', { childId, from, to, moved });
    return moved;
  });
