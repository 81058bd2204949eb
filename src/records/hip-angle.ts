import type { IsoDate } from './dates.js';
import type { Device, DeviceEvent } from './device.js';

/** Abduction of the hips as it was found on a day, degrees; null for a side nobody looked at. */
export interface HipAngle {
  readonly date: IsoDate;
  readonly left: number | null;
  readonly right: number | null;
  /** Outside what the device was set to; false where nobody said what that is. */
  readonly isOff: boolean;
}

type Angles = Pick<DeviceEvent, 'hipAngleLeft' | 'hipAngleRight'>;

/** Was a hip looked at? */
export const hasHipAngle = ({ hipAngleLeft, hipAngleRight }: Angles): boolean =>
  (hipAngleLeft ?? hipAngleRight ?? null) !== null;

/** A note or an angle alone is kept: what was told of the skin must not be lost for want of a word on the fit. */
export const saysOfFit = (said: Angles & Pick<DeviceEvent, 'verdict' | 'note'>): boolean =>
  said.verdict !== null || said.note.trim() !== '' || hasHipAngle(said);

/** The last angle that was recorded of a device; a side left out stands as it was found before. */
export function lastHipAngle(device: Device, events: readonly DeviceEvent[]): HipAngle | null {
  const found = events
    .filter((e) => e.deviceId === device.id && hasHipAngle(e))
    .toSorted((a, b) => b.date.localeCompare(a.date));
  if (found.length === 0) return null;
  const left = found.find((e) => (e.hipAngleLeft ?? null) !== null)?.hipAngleLeft ?? null;
  const right = found.find((e) => (e.hipAngleRight ?? null) !== null)?.hipAngleRight ?? null;
  const { hipAngleFrom: from, hipAngleTo: to } = device;
  const isOff = [left, right].some(
    (angle) => angle !== null && (angle < (from ?? angle) || angle > (to ?? angle)),
  );
  return { date: found[0].date, left, right, isOff };
}
