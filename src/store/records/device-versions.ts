import { DoorpostError } from '../../errors.js';
import type { Device } from '../../records/device.js';
import type { Database } from '../connect.js';
import type { DeviceVersion } from '../shapes.js';
import { requireDevice } from './require-child.js';

/** Every state a device's record had, newest first, with who left it so; null where an event did. */
export async function deviceVersions(db: Database, deviceId: string): Promise<DeviceVersion[]> {
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
export async function deviceBefore(db: Database, deviceId: string): Promise<Device> {
  const [, last] = await deviceVersions(db, deviceId);
  if (!last) throw new DoorpostError('nothing-to-undo', 'This device was never changed');
  return last.device;
}
