import { randomUUID } from 'node:crypto';
import type { IsoDate } from '../../records/dates.js';
import { type Device, type DeviceEvent, deviceEventRecord, stateByFitting } from '../../records/device.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { Actor, EventCorrection, EventRevision, NewEvent } from '../shapes.js';
import { devicesTable, eventsTable } from './caseload-tables.js';
import { changeInPlace } from './in-place.js';
import { requireDevice } from './require-child.js';
import { addRecord, corrections, type RevisedKind, type RevisedRow, revisionOf } from './revised.js';

export const eventKind: RevisedKind<DeviceEvent> = {
  part: 'events',
  at: eventsTable,
  follow: async (tx, { value: device, version }, before, after) => {
    const next = deviceAfter(device, before, after);
    if (next !== device) await changeInPlace(tx, devicesTable, next, device.childId, version);
  },
  audited: ({ id, deviceId, kind }) => ({ eventId: id, deviceId, kind }),
};

/** The end or delivery of a device sets its state: entered, taken back or dated anew, the state goes with it. */
function deviceAfter(device: Device, before: DeviceEvent | null, after: DeviceEvent | null): Device {
  const { kind } = (before ?? after)!;
  const isRetired = device.status === 'retired';
  if (kind === 'retired') {
    if (isRetired !== (after === null)) return device;
    return { ...device, status: after ? 'retired' : stateByFitting(device.fittedDate) };
  }
  if (kind !== 'delivered' || isRetired) return device;
  if (!isItsFitting(device, before, after)) return device;
  return after
    ? { ...device, status: 'worn', fittedDate: after.date }
    : { ...device, status: 'ordered', fittedDate: null };
}

/** Is a delivery entered, dated anew or taken back the one that the device's day of fitting says? */
const isItsFitting = (
  { status, fittedDate }: Device,
  before: DeviceEvent | null,
  after: DeviceEvent | null,
): boolean =>
  before === null
    ? status === 'ordered'
    : fittedDate === before.date || (after !== null && fittedDate === null);

const shown = (row: RevisedRow): EventRevision => ({ event: eventsTable.of(row), ...revisionOf(row) });

export const eventsRepository = (db: Database) => ({
  /** A fit verdict, an adjustment, a new cast ...; 'retired' also retires the device, 'delivered' makes one that was ordered worn. */
  async add(given: NewEvent, today: IsoDate, actor: Actor): Promise<DeviceEvent> {
    const event = deviceEventRecord.parse({ ...given, id: randomUUID() });
    const { childId } = (await requireDevice(db, event.deviceId)).value;
    return addRecord(db, eventKind, event, childId, today, actor);
  },

  /** Everything recorded of a device, corrections and what was withdrawn among it, in the order it was entered. */
  async revisions(deviceId: string, actor: Actor): Promise<readonly EventRevision[]> {
    const { childId } = (await requireDevice(db, deviceId)).value;
    const rows = await db
      .selectFrom('device_events')
      .selectAll()
      .where('device_id', '=', deviceId)
      .orderBy('seq')
      .execute();
    await writeAudit(db, actor, 'read', 'device-events', { childId });
    return rows.map((row) => shown({ ...row }));
  },

  correct: async (
    id: string,
    correction: EventCorrection,
    today: IsoDate,
    actor: Actor,
  ): Promise<EventRevision> =>
    shown(await corrections(db, eventKind).correct(id, correction, today, null, actor)),
  /** The end or delivery of a device withdrawn, the device is as before it. */
  withdraw: corrections(db, eventKind).withdraw,
  /** Back to the revision before, itself as a new revision. */
  undoCorrection: async (id: string, today: IsoDate, actor: Actor) =>
    shown(await corrections(db, eventKind).undoCorrection(id, today, actor)),
});
