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
  /** Adjusted on this day and nobody noted by how much, nor judged the fit since: it makes no room that is known of. */
  readonly amountUnknownOn: IsoDate | null;
}

/** Reads a device's events in order of date. A re-cast counts as the device's cast once it has been delivered. */
export function deviceHistory(device: Device, events: readonly DeviceEvent[]): DeviceHistory {
  const own = events
    .filter((e) => e.deviceId === device.id)
    .sort((a, b) => Number(a.date > b.date) - Number(a.date < b.date));
  const worn = wornAfter(device, own);
  const all = own.filter((e) => e.date >= worn.castDate && (e.kind === 'adjusted' || e.kind === 'verdict'));
  const since = all.filter((e) => !isOfUnknownAmount(e));
  const unknown = all.findLast(isOfUnknownAmount)?.date ?? null;
  const judged = since.findLast((e) => e.verdict !== null)?.date ?? '';
  return {
    ...worn,
    judgedOutgrown: judgedOutgrownIn(since),
    since,
    amountUnknownOn: unknown !== null && unknown > judged ? unknown : null,
  };
}

/** Clinics seldom note the millimetres. What they let out by an unknown amount puts off no date. */
export const isOfUnknownAmount = (e: DeviceEvent): boolean => e.kind === 'adjusted' && e.changeMm === null;

/** Worn by its state and not retired by its events. */
export const isWorn = (device: Device, events: readonly DeviceEvent[]): boolean =>
  device.status === 'worn' && deviceHistory(device, events).retiredOn === null;

/** A delivery ends what was broken, lost or retired before it. */
function wornAfter(
  { castDate, fittedDate }: Device,
  events: readonly DeviceEvent[],
): Omit<DeviceHistory, 'judgedOutgrown' | 'since' | 'amountUnknownOn'> {
  const none = { brokenOn: null, lostOn: null, retiredOn: null, pendingCast: null };
  let now: ReturnType<typeof wornAfter> = { castDate, fittedDate, ...none };
  for (const { kind, date } of events) {
    if ((kind === 're-cast' || kind === 'cast') && date > now.castDate) now = { ...now, pendingCast: date };
    else if (kind === 'delivered')
      now = { castDate: now.pendingCast ?? now.castDate, fittedDate: date, ...none };
    else if (kind === 'broken') now = { ...now, brokenOn: date };
    else if (kind === 'lost') now = { ...now, lostOn: date };
    else if (kind === 'retired') now = { ...now, retiredOn: date };
  }
  return now;
}

/** The last word on its fit, where that was 'outgrown' and nothing was adjusted since. */
function judgedOutgrownIn(since: readonly DeviceEvent[]): DeviceEvent | null {
  const last = since.findLast((e) => e.kind === 'adjusted' || e.verdict !== null);
  return last?.kind === 'verdict' && last.verdict === 'outgrown' ? last : null;
}
