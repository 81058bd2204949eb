import { randomUUID } from 'node:crypto';
import { DoorpostError } from '../../errors.js';
import { deviceFaults } from '../../records/check/device-faults.js';
import { refuse } from '../../records/check/refuse.js';
import { type Device, deviceRecord } from '../../records/device.js';
import { familyFacts } from '../../rules/family-facts.js';
import { loadRules } from '../../rules/load-rules.js';
import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';
import type { Store } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import { deviceBefore, deviceVersions } from './device-versions.js';
import { changedMeanwhile, requireChild } from './require-child.js';
import { requireDevice } from './require-device.js';

/** The families that a device may be of: a service knows those of the rule files, its clinic sets their limits. */
export const families = familyFacts(loadRules());

export const deviceColumns = (device: Device) => ({
  id: device.id,
  child_id: device.childId,
  family: device.family,
  status: device.status,
  data: JSON.stringify(device),
});

export const devicesRepository = (db: Database): Store['devices'] => ({
  async versions(deviceId, actor) {
    const versions = await deviceVersions(db, deviceId);
    const { childId } = versions[0].device;
    await writeAudit(db, actor, 'read', 'device-versions', { childId });
    return versions;
  },

  undoChange: (deviceId, today, actor) =>
    atomically(db, async (tx) =>
      devicesRepository(tx).change(deviceId, await deviceBefore(tx, deviceId), today, null, actor),
    ),

  async get(deviceId, actor) {
    const { data, version } = await requireDevice(db, deviceId);
    await writeAudit(db, actor, 'read', 'device', { childId: data.childId });
    return { value: data, version };
  },

  create: (given, today, actor) =>
    atomically(db, async (tx) => {
      const device = deviceRecord.parse({ ...given, id: given.id ?? randomUUID() });
      const child = await requireChild(tx, device.childId, 'share');
      refuse(deviceFaults(device, { birthDate: child.value.birthDate, today, families }));
      const added = await tx
        .insertInto('devices')
        .values(deviceColumns(device))
        .onConflict((c) => c.doNothing())
        .returning('version')
        .executeTakeFirst();
      if (!added)
        throw new DoorpostError('already-there', 'There is a device with this id already', { field: 'id' });
      await writeAudit(tx, actor, 'create', 'device', { childId: device.childId, deviceId: device.id });
      return { value: device, version: added.version };
    }),

  change: (deviceId, change, today, expected, actor) =>
    atomically(db, async (tx) => {
      const before = await requireDevice(tx, deviceId, true);
      if (expected !== null && expected !== before.version) throw changedMeanwhile(expected, before.version);
      const value = deviceRecord.parse({
        ...before.data,
        ...change,
        id: deviceId,
        childId: before.data.childId,
      });
      const { birthDate } = (await requireChild(tx, value.childId)).value;
      refuse(deviceFaults(value, { birthDate, today, families }));
      const version = before.version + 1;
      await tx
        .updateTable('devices')
        .set({ ...deviceColumns(value), version, updated_at: new Date() })
        .where('id', '=', deviceId)
        .execute();
      await writeAudit(tx, actor, 'change', 'device', {
        childId: value.childId,
        deviceId,
        fields: Object.keys(change),
        version,
      });
      return { value, version };
    }),
});
