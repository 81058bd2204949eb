import type { Selectable } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { eventFaults } from '../../records/check/event-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { DeviceEvent } from '../../records/device.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Actor, EventRevision, Store } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import type { Tables } from '../tables.js';
import { appended } from './appended.js';
import { deviceColumns, families } from './devices.js';
import { notFound } from './require-child.js';
import { requireDevice } from './require-device.js';
import { eventColumns, eventOf } from './row-records.js';

type Row = Selectable<Tables['device_events']>;

const revisionOf = (row: Row): EventRevision => ({
  event: eventOf(row),
  revision: row.revision,
  withdrawn: row.withdrawn,
  reason: row.reason,
  by: row.recorded_by,
  at: row.recorded_at.toISOString(),
});

/** What was recorded of a device, put right: each correction is a new revision, and the last one can be taken back. */
export const eventCorrections = (
  db: Database,
): Pick<Store['events'], 'revisions' | 'correct' | 'withdraw' | 'undoCorrection'> => {
  const revise = (
    eventId: string,
    today: string,
    actor: Actor,
    next: (all: readonly Row[]) => { event: DeviceEvent; withdrawn: boolean; reason: string },
  ) =>
    atomically(db, async (tx) => {
      const all = await tx
        .selectFrom('device_events')
        .selectAll()
        .where('id', '=', eventId)
        .orderBy('revision')
        .execute();
      const last = all.at(-1);
      if (!last) throw notFound('device event');
      const device = await requireDevice(tx, last.device_id, true);
      const { event, withdrawn, reason } = next(all);
      if (!withdrawn) refuse(eventFaults(event, { device: device.data, today, families }));
      const added = await tx
        .insertInto('device_events')
        .values({
          ...eventColumns(event, last.child_id),
          ...appended(actor, last, { withdrawn, reason }),
        })
        .returningAll()
        .executeTakeFirstOrThrow();
      await followStatus(tx, device, eventOf(last), withdrawn ? null : event);
      await writeAudit(tx, actor, withdrawn ? 'withdraw' : 'correct', 'device-event', {
        childId: last.child_id,
        eventId,
        deviceId: last.device_id,
        revision: last.revision + 1,
      });
      return revisionOf(added);
    });
  return {
    async revisions(deviceId, actor) {
      const { data } = await requireDevice(db, deviceId);
      const rows = await db
        .selectFrom('device_events')
        .selectAll()
        .where('device_id', '=', deviceId)
        .orderBy('seq')
        .execute();
      await writeAudit(db, actor, 'read', 'device-events', { childId: data.childId });
      return rows.map(revisionOf);
    },
    correct: (eventId, { reason, ...change }, today, actor) =>
      revise(eventId, today, actor, (all) => ({
        event: { ...eventOf(all.at(-1)!), ...change },
        withdrawn: false,
        reason,
      })),
    withdraw: async (eventId, reason, actor) => {
      await revise(eventId, '', actor, (all) => {
        if (all.at(-1)!.withdrawn) throw notFound('device event');
        return { event: eventOf(all.at(-1)!), withdrawn: true, reason };
      });
    },
    undoCorrection: (eventId, today, actor) =>
      revise(eventId, today, actor, (all) => {
        const before = all.at(-2);
        if (!before) throw new DoorpostError('nothing-to-undo', 'This entry was never corrected');
        return {
          event: eventOf(before),
          withdrawn: before.withdrawn,
          reason: `back to revision ${before.revision}`,
        };
      }),
  };
};

/** An end or a delivery set the device's state: taken back or dated anew, the state goes with it. */
async function followStatus(
  tx: Database,
  { data: device, version }: Awaited<ReturnType<typeof requireDevice>>,
  before: DeviceEvent,
  after: DeviceEvent | null,
): Promise<void> {
  let next = device;
  if (before.kind === 'retired') {
    const worn = device.fittedDate === null ? 'ordered' : 'worn';
    if (after === null && device.status === 'retired') next = { ...device, status: worn };
    if (after !== null && device.status !== 'retired') next = { ...device, status: 'retired' };
  }
  if (before.kind === 'delivered' && device.status !== 'retired') {
    if (after === null && device.fittedDate === before.date)
      next = { ...device, status: 'ordered', fittedDate: null };
    if (after !== null && (device.fittedDate === before.date || device.fittedDate === null))
      next = { ...device, status: 'worn', fittedDate: after.date };
  }
  if (next === device) return;
  await tx
    .updateTable('devices')
    .set({ ...deviceColumns(next), version: version + 1, updated_at: new Date() })
    .where('id', '=', device.id)
    .execute();
}
