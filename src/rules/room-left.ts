import type { IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import { type Series, seriesKey } from '../records/measure.js';
import { dimensionLimits, extensionLeftOn, limitOn } from './dimension-limits.js';
import type { FamilyRule } from './fit-rule.js';

/** Sizes in mm by seriesKey: 'foot_length/left'. */
export type Sizes = ReadonlyMap<string, number>;

export interface RoomLeft {
  readonly series: Series;
  readonly grownMm: number;
  /** Room before something must be done, adjustments made so far included; negative once past. */
  readonly roomMm: number;
  /** Side-bar travel that would add to it, mm. */
  readonly extensionLeftMm: number;
  /** Growth has reached the rule's first warning (half a shoe size, an axis off by 3 mm). */
  readonly warned: boolean;
  readonly outcome: 'room' | 'tight' | 'adjust' | 'outgrown';
}

/**
 * How much room a device has for given sizes at its cast and now, per dimension; no growth, no chance, so that a
 * clinician can read and sign it alone. A dimension without both sizes is left out.
 */
export function roomLeft(
  rule: FamilyRule,
  device: Device,
  events: readonly DeviceEvent[],
  sizeAtCast: Sizes,
  sizeNow: Sizes,
  on: IsoDate,
): RoomLeft[] {
  return dimensionLimits(rule, device, events).flatMap((limit) => {
    const key = seriesKey(limit.series);
    const now = sizeNow.get(key);
    const cast = sizeAtCast.get(key) ?? (limit.kind === 'size' ? now : undefined);
    if (now === undefined || cast === undefined) return [];
    const grownMm = now - cast;
    const roomMm = limitOn(limit, on) - (limit.kind === 'size' ? now : grownMm);
    const extensionLeftMm = extensionLeftOn(limit, on);
    const outcome =
      roomMm < 0
        ? roomMm + extensionLeftMm >= 0 && extensionLeftMm > 0
          ? 'adjust'
          : 'outgrown'
        : roomMm < limit.dimension.tightWithinMm.value
          ? 'tight'
          : 'room';
    const warned = grownMm >= (limit.dimension.warnAtMm?.value ?? Number.POSITIVE_INFINITY);
    return [{ series: limit.series, warned, grownMm, roomMm, extensionLeftMm, outcome }];
  });
}
