import { randomUUID } from 'node:crypto';
import { DoorpostError } from '../../errors.js';
import { deviceFaults } from '../../records/check/device-faults.js';
import { refuse } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { deviceRecord } from '../../records/device.js';
import { familyFacts } from '../../rules/family-facts.js';
import { loadRules } from '../../rules/load-rules.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { refuseStale } from '../refusals.js';
import type { Actor, DeviceVersion, Expected, Versioned } from '../shapes.js';
import { devicesTable } from './caseload-tables.js';
import { addInPlace, changeInPlace } from './in-place.js';
import { requireChild, requireDevice } from './require-child.js';

/** The families that a device may be of: a service knows those of the rule files, its clinic sets their limits. */
export const families = familyFacts(loadRules());

export const devicesRepository = (db: Database) => ({
  /** Every state of the record, newest first. */
  async versions(deviceId: string, actor: Actor): Promise<readonly DeviceVersion[]> {
    const versions = await deviceVersions(db, deviceId);
    const { childId } = versions[0].device;
    await writeAudit(db, actor, 'read', 'device-versions', { childId });
    return versions;
  },

  /** Back to the state before the last change, itself as a new change; throws 'nothing-to-undo'. */
  undoChange: (deviceId: string, today: IsoDate, actor: Actor): Promise<Versioned<Device>> =>
    atomically(db, async (tx) =>
      devicesRepository(tx).change(deviceId, await deviceBefore(tx, deviceId), today, null, actor),
    ),

  async get(deviceId: string, actor: Actor): Promise<Versioned<Device>> {
    const found = await requireDevice(db, deviceId);
    await writeAudit(db, actor, 'read', 'device', { childId: found.value.childId });
    return found;
  },

  create: (
    given: Omit<Device, 'id'> & { id?: string },
    today: IsoDate,
    actor: Actor,
  ): Promise<Versioned<Device>> =>
    atomically(db, async (tx) => {
      const device = deviceRecord.parse({ ...given, id: given.id ?? randomUUID() });
      const child = await requireChild(tx, device.childId, 'share');
      refuse(deviceFaults(device, { birthDate: child.value.birthDate, today, families }));
      const added = await addInPlace(tx, devicesTable, device, device.childId);
      await writeAudit(tx, actor, 'create', 'device', { childId: device.childId, deviceId: device.id });
      return added;
    }),

  change: (
    deviceId: string,
    change: Partial<Device>,
    today: IsoDate,
    expected: Expected,
    actor: Actor,
  ): Promise<Versioned<Device>> =>
    atomically(db, async (tx) => {
      const before = await requireDevice(tx, deviceId, 'update');
      refuseStale(expected, before.version);
      const { childId } = before.value;
      const value = deviceRecord.parse({ ...before.value, ...change, id: deviceId, childId });
      const { birthDate } = (await requireChild(tx, childId)).value;
      refuse(deviceFaults(value, { birthDate, today, families }));
      const changed = await changeInPlace(tx, devicesTable, value, childId, before.version);
      const { version } = changed;
      const fields = Object.keys(change);
      await writeAudit(tx, actor, 'change', 'device', { childId, deviceId, fields, version });
      return changed;
    }),
});

/** Every state a device's record had, newest first, with who left it so; null where an event did. */
async function deviceVersions(db: Database, deviceId: string): Promise<DeviceVersion[]> {
  const now = await requireDevice(db, deviceId);
  const before = await db
    .selectFrom('record_history')
    .select(['version', 'data', 'replaced_at'])
    .where('record', '=', 'devices')
    .where('child_id', '=', now.value.childId)
    .where('id', '=', deviceId)
    .orderBy('version', 'desc')
    .execute();
  const audited = await db
    .selectFrom('audit')
    .select(['user_name', 'action', 'detail'])
    .where('resource', '=', 'device')
    .where('child_id', '=', now.value.childId)
    .where('action', 'in', ['create', 'change'])
    .execute();
  const by = (version: number): string | null =>
    audited.find(
      ({ action, detail }) =>
        detail.deviceId === deviceId && (action === 'create' ? version === 1 : detail.version === version),
    )?.user_name ?? null;
  // A version stands from the moment the one before it was replaced.
  const since = (version: number) =>
    before.find((b) => b.version === version - 1)?.replaced_at.toISOString() ?? null;
  const states = [{ version: now.version, data: now.value as unknown }, ...before];
  return states.map(({ version, data }) => ({
    version,
    device: data as Device,
    by: by(version),
    at: since(version),
  }));
}

/** The state before the last change, or a refusal where nothing was ever changed. */
async function deviceBefore(db: Database, deviceId: string): Promise<Device> {
  const [, last] = await deviceVersions(db, deviceId);
  if (!last) throw new DoorpostError('nothing-to-undo', 'This device was never changed');
  return last.device;
}
