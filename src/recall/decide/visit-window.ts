import type { IsoDate } from '../../records/dates.js';
import { daysBetween } from '../../records/dates.js';
import type { DeviceDue } from '../contract.js';
import type { RecallSettings } from './recall-settings.js';

/** The date a device's visit must not pass; null where none is known. */
export const dateOf = (d: DeviceDue): IsoDate | null => d.castDate?.latestSafe ?? d.wearReview;

/** Does a further device of the child come along: near enough, and worth casting by then? */
export function joins(d: DeviceDue, due: readonly DeviceDue[], settings: RecallSettings): boolean {
  const own = dateOf(d);
  const first = windowOf(due).latestSafe;
  if (own === null || first === null) return false;
  const days = daysBetween(first, own);
  return days <= settings.combineWithinDays && (d.castDate?.worthIt ?? '0000') <= own;
}

/** The visit's window: before the first device's latest safe date, from when every device is worth it if that fits. */
export function windowOf(devices: readonly DeviceDue[]): {
  latestSafe: IsoDate | null;
  worthIt: IsoDate | null;
} {
  const dates = devices.flatMap((d) => dateOf(d) ?? []).sort();
  const worth = devices.flatMap((d) => d.castDate?.worthIt ?? []).sort();
  const latestSafe = dates[0] ?? null;
  const within = worth.filter((w) => latestSafe === null || w <= latestSafe);
  return { latestSafe, worthIt: within.at(-1) ?? worth[0] ?? null };
}
