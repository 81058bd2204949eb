import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { DeviceHistory } from '../../records/device-history.js';
import { lastSeen } from './last-seen.js';

/** A new device is looked at on the child, skin and gait, within so many days of its fitting (common practice, no source: 1-4 weeks). */
export const FIRST_LOOK_DAYS = 28;

/**
 * Day by which a device just fitted is looked at for the first time; null once somebody has seen the child since, or
 * once the usual review has come round, which then stands for it.
 */
export function firstLookBy(
  device: Device,
  { castDate }: DeviceHistory,
  record: ChildRecord,
  usualDays: number,
  today: IsoDate,
): IsoDate | null {
  const handedOver = record.events.filter((e) => e.deviceId === device.id && e.kind === 'delivered');
  // The first day from this cast on: handed back from a repair it is not new.
  const [fitted] = [device.fittedDate, ...handedOver.map((e) => e.date)]
    .flatMap((day) => (day !== null && day >= castDate && day <= today ? day : []))
    .toSorted();
  if (fitted === undefined || addDaysIso(fitted, usualDays) <= today) return null;
  if ((lastSeen(record, today) ?? '') > fitted) return null;
  return addDaysIso(fitted, Math.min(FIRST_LOOK_DAYS, usualDays));
}
