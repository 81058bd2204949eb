import type { ChildRecord } from '../../records/caseload.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { DeviceHistory } from '../../records/device-history.js';
import { daysSeen } from './last-seen.js';

/** A new device is looked at on the child, skin and gait, within so many days of its fitting (common practice, no source: 1-4 weeks). */
export const FIRST_LOOK_DAYS = 28;

/** A first look that is written down is so within so many days (common practice, no source). */
const WRITTEN_WITHIN_DAYS = 42;

/**
 * Day by which a device just fitted is looked at for the first time; null once somebody has seen the child since, or
 * once the usual review has come round, which then stands for it. Where none was written down after the earlier fittings of
 * this child it is not asked for either, but for skin that cannot warn.
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
  const days = daysSeen(record, today);
  if ((days.at(-1) ?? '') > fitted) return null;
  if (!record.child.insensateSkin && areNotWrittenDown(record, days, fitted)) return null;
  return addDaysIso(fitted, Math.min(FIRST_LOOK_DAYS, usualDays));
}

/** One fitting without a look is one that was missed; after so many it is how the clinic keeps its records. */
const FITTINGS_TO_TELL = 2;

/** The child has had fittings on some days before, and is not on record as seen soon after any of them. */
function areNotWrittenDown({ devices }: ChildRecord, days: readonly IsoDate[], fitted: IsoDate): boolean {
  const earlier = devices.flatMap(({ fittedDate: day }) =>
    day !== null && addDaysIso(day, WRITTEN_WITHIN_DAYS) <= fitted ? day : [],
  );
  const looked = (day: IsoDate) => days.some((d) => d > day && d <= addDaysIso(day, WRITTEN_WITHIN_DAYS));
  return new Set(earlier).size >= FITTINGS_TO_TELL && !earlier.some(looked);
}
