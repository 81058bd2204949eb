import type { ChildRecord } from '../records/caseload.js';
import { addDaysIso, type IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import { deviceHistory } from '../records/device-history.js';

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

/** A child's record as it stood at the end of a day: nothing of what was seen, cast, fitted or judged after it. */
export function recordOn(record: ChildRecord, day: IsoDate): ChildRecord {
  const until = <T extends { readonly date: IsoDate }>(rows: readonly T[]) =>
    rows.filter((r) => r.date <= day);
  const events = until(record.events);
  const ended = (d: Device, by: readonly DeviceEvent[]) => deviceHistory(d, by).retiredOn !== null;
  const devices = record.devices
    .filter((d) => d.castDate <= day)
    .map((d): Device => {
      if (d.fittedDate === null || d.fittedDate > day) return { ...d, fittedDate: null, status: 'ordered' };
      // One that ended nobody knows when is not taken for worn.
      const endless = d.status === 'retired' && !ended(d, record.events);
      return { ...d, status: endless || ended(d, events) ? 'retired' : 'worn' };
    });
  const here = new Set(devices.map((d) => d.id));
  return {
    child: { ...record.child, status: 'active' },
    measurements: until(record.measurements),
    markers: until(record.markers),
    skinChecks: until(record.skinChecks),
    devices,
    events: events.filter((e) => here.has(e.deviceId)),
    // How far the workshop is decides no forecast.
    jobs: [],
  };
}
