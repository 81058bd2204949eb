import { randomUUID } from 'node:crypto';
import { eventFaults } from '../../records/check/event-faults.js';
import { refuse } from '../../records/check/refuse.js';
import { type Device, type DeviceEvent, deviceEventRecord } from '../../records/device.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import { appended } from './appended.js';
import { deviceColumns, families } from './devices.js';
import { eventCorrections } from './event-corrections.js';
import { requireDevice } from './require-device.js';
import { eventColumns } from './row-records.js';

/** The device as an event leaves it: retired, or worn from the day it was delivered. */
function deviceAfter(device: Device, { kind, date }: DeviceEvent): Device {
  if (kind === 'retired' && device.status !== 'retired') return { ...device, status: 'retired' };
  if (kind === 'delivered' && device.status === 'ordered')
    return { ...device, status: 'worn', fittedDate: date };
  return device;
}

export const eventsRepository = (db: Database): Store['events'] => ({
  add: (given, today, actor) =>
    atomically(db, async (tx) => {
      const event = deviceEventRecord.parse({ ...given, id: randomUUID() });
      const { data: device, version } = await requireDevice(tx, event.deviceId, true);
      refuse(eventFaults(event, { device, today, families }));
      await tx
        .insertInto('device_events')
        .values({ ...eventColumns(event, device.childId), ...appended(actor) })
        .execute();
      const after = deviceAfter(device, event);
      if (after !== device)
        await tx
          .updateTable('devices')
          .set({ ...deviceColumns(after), version: version + 1, updated_at: new Date() })
          .where('id', '=', device.id)
          .execute();
      await writeAudit(tx, actor, 'create', 'device-event', {
        childId: device.childId,
        deviceId: device.id,
        eventId: event.id,
        kind: event.kind,
      });
      return event;
    }),

  ...eventCorrections(db),
});
