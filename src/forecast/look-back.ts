import type { ChildRecord } from '../records/caseload.js';
import { addDaysIso, type IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import { deviceHistory } from '../records/device-history.js';
import { recordUntil } from './record-until.js';

/** Most devices of so long ago have come to an end since. */
const LOOK_BACK_DAYS = 540;
/** So many days of a child are looked back on: enough to learn from, and no longer night's work. */
const DAYS_OF_A_CHILD = 2;

/** The last days, long enough ago, on which a child was given a device: what was forecast then has happened since. */
export function lookBackDays(record: ChildRecord, today: IsoDate): IsoDate[] {
  const latest = addDaysIso(today, -LOOK_BACK_DAYS);
  const fitted = new Set(record.devices.flatMap((d) => d.fittedDate ?? []).filter((day) => day <= latest));
  return [...fitted].toSorted().slice(-DAYS_OF_A_CHILD);
}

/** A child's record as it stood at the end of a day, and what was worn or being made then as it was. */
export function recordOn(record: ChildRecord, day: IsoDate): ChildRecord {
  const then = recordUntil(record, day);
  const ended = (d: Device, by: readonly DeviceEvent[]) => deviceHistory(d, by).retiredOn !== null;
  const status = (d: Device): Device['status'] => {
    if (d.fittedDate === null) return 'ordered';
    // One that ended nobody knows when is not taken for worn.
    const endless = d.status === 'retired' && !ended(d, record.events);
    return endless || ended(d, then.events) ? 'retired' : 'worn';
  };
  return {
    ...then,
    child: { ...record.child, status: 'active' },
    devices: then.devices.map((d) => ({ ...d, status: status(d) })),
  };
}
