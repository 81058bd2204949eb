import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { sidesOverlap } from './replacement-in-progress.js';

export interface Successor {
  readonly fittedOn: IsoDate;
  /** Recorded as cast to take its place; else only of the same kind and side, and newer. */
  readonly linked: boolean;
}

/** A device fitted in the place of one that still counts as worn. */
export function successorOf(device: Device, record: ChildRecord, today: IsoDate): Successor | null {
  const worn = record.devices.filter(
    (d) => d.id !== device.id && d.status === 'worn' && d.fittedDate !== null && d.fittedDate <= today,
  );
  const linked = worn.find((d) => d.replaces === device.id);
  const newer = worn.find(
    (d) => d.family === device.family && d.castDate > device.castDate && sidesOverlap(d.side, device.side),
  );
  const found = linked ?? newer;
  return found ? { fittedOn: found.fittedDate!, linked: linked !== undefined } : null;
}
