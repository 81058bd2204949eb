import { dateFaults, refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Actor } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import { appended } from './appended.js';
import { eventCorrections } from './event-corrections.js';
import { measurementsRepository } from './measurements.js';
import { notFound, requireChild } from './require-child.js';
import { eventOf, skinCheckColumns, skinCheckOf } from './row-records.js';

/** A visit entered on the wrong day: its readings, skin checks and judgements of fit go to the right one together. */
export const moveVisit = (
  db: Database,
  childId: string,
  { from, to, reason }: { from: IsoDate; to: IsoDate; reason: string },
  today: IsoDate,
  actor: Actor,
): Promise<number> =>
  atomically(db, async (tx) => {
    const child = await requireChild(tx, childId, 'update');
    refuse(dateFaults('Visit', 'date', to, { from: child.value.birthDate, since: 'birth', today }));
    const own = { child_id: childId, date: from };
    const of = (table: 'current_measurements' | 'current_device_events' | 'current_skin_checks') =>
      tx
        .selectFrom(table)
        .selectAll()
        .where('child_id', '=', own.child_id)
        .where('date', '=', own.date)
        .execute();
    const readings = await of('current_measurements');
    const events = (await of('current_device_events')).filter((e) => eventOf(e as never).kind === 'verdict');
    const checks = await of('current_skin_checks');
    const moved = readings.length + events.length + checks.length;
    if (moved === 0) throw notFound('visit on that day');
    for (const { id } of readings)
      await measurementsRepository(tx).correct(id, { date: to, reason }, today, null, actor);
    for (const { id } of events) await eventCorrections(tx).correct(id, { date: to, reason }, today, actor);
    for (const check of checks)
      await tx
        .insertInto('skin_checks')
        .values({
          ...skinCheckColumns({ ...skinCheckOf(check as never), date: to }),
          ...appended(actor, check, { reason }),
        })
        .execute();
    await writeAudit(tx, actor, 'correct', 'visit', { childId, from, to, moved });
    return moved;
  });
