import type { IsoDate } from './dates.js';
import type { Device, DeviceEvent } from './device.js';

/** What a device's events say of its state; every date is one a person recorded. */
export interface DeviceHistory {
  /** Date of the cast the device now worn was made from. */
  readonly castDate: IsoDate;
  readonly fittedDate: IsoDate | null;
  /** Set when the last word of a reviewer was 'outgrown'. */
  readonly judgedOutgrown: DeviceEvent | null;
  readonly brokenOn: IsoDate | null;
  readonly lostOn: IsoDate | null;
  readonly retiredOn: IsoDate | null;
  /** A newer cast that has not been delivered yet: a replacement is in progress. */
  readonly pendingCast: IsoDate | null;
  /** Adjustments and verdicts since `castDate`, in order of date. */
  readonly since: readonly DeviceEvent[];
}

/** Reads a device's events in order of date. A re-cast counts as the device's cast once it has been delivered. */
export function deviceHistory(device: Device, events: readonly DeviceEvent[]): DeviceHistory {
  const own = events
    .filter((e) => e.deviceId === device.id)
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  let castDate = device.castDate;
  let fittedDate = device.fittedDate;
  let pendingCast: IsoDate | null = null;
  let brokenOn: IsoDate | null = null;
  let lostOn: IsoDate | null = null;
  let retiredOn: IsoDate | null = null;
  for (const e of own) {
    if ((e.kind === 're-cast' || e.kind === 'cast') && e.date > castDate) pendingCast = e.date;
    else if (e.kind === 'delivered') {
      if (pendingCast !== null) castDate = pendingCast;
      pendingCast = null;
      fittedDate = e.date;
      brokenOn = null;
      lostOn = null;
      retiredOn = null;
    } else if (e.kind === 'broken') brokenOn = e.date;
    else if (e.kind === 'lost') lostOn = e.date;
    else if (e.kind === 'retired') retiredOn = e.date;
  }
  const since = own.filter((e) => e.date >= castDate && (e.kind === 'adjusted' || e.kind === 'verdict'));
  let judgedOutgrown: DeviceEvent | null = null;
  for (const e of since) {
    if (e.kind === 'verdict' && e.verdict === 'outgrown') judgedOutgrown = e;
    else if (e.kind === 'adjusted' || e.verdict !== null) judgedOutgrown = null;
  }
  return {
    castDate,
    fittedDate,
    judgedOutgrown,
    brokenOn,
    lostOn,
    retiredOn,
    pendingCast,
    since,
  };
}
