import { DoorpostError } from '../errors.js';
import type { ChildRecord } from './caseload.js';
import type { Device } from './device.js';

/** The child's device of this id, or the refusal that it has none. */
export function deviceOf({ devices }: Pick<ChildRecord, 'devices'>, id: string | undefined): Device {
  const device = devices.find((d) => d.id === id);
  if (!device) throw new DoorpostError('not-found', 'This child has no such device');
  return device;
}
