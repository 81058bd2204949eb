import type { IsoDate } from '../records/dates.js';
import { type Series, seriesKey } from '../records/measure.js';
import {
  type Adjustment,
  adjustmentsLeftOn,
  type DimensionLimit,
  liftToComeMm,
  limitOn,
} from './dimension-limits.js';

/** Sizes in mm by seriesKey: 'foot_length/left'. */
export type Sizes = ReadonlyMap<string, number>;

export interface RoomLeft {
  readonly series: Series;
  readonly grownMm: number;
  /** Room before something must be done, adjustments made so far included; negative once past. */
  readonly roomMm: number;
  /** What can still make room, in the order in which it is tried. */
  readonly adjustments: readonly Adjustment[];
  readonly outcome: 'room' | 'tight' | 'adjust' | 'outgrown';
}

/** A limit as it is told, whole mm: the slip, the page and the chart say the same, and never more than it takes. */
export const fullAtMm = (limitMm: number): number => Math.floor(limitMm + 1e-6);

/**
 * How much room a device has for given sizes at its cast and now, per limit; no growth, no chance, so that a
 * clinician can read and sign it alone. A limit without both sizes is left out.
 */
export function roomLeft(
  limits: readonly DimensionLimit[],
  sizeAtCast: Sizes,
  sizeNow: Sizes,
  on: IsoDate,
): RoomLeft[] {
  const grown = (series: Series) => {
    const key = seriesKey(series);
    return (sizeNow.get(key) ?? 0) - (sizeAtCast.get(key) ?? sizeNow.get(key) ?? 0);
  };
  return limits.flatMap((limit) => {
    const key = seriesKey(limit.series);
    const now = sizeNow.get(key);
    const cast = sizeAtCast.get(key) ?? (limit.kind === 'size' ? now : undefined);
    if (now === undefined || cast === undefined) return [];
    const roomMm = limitOn(limit, on) - (limit.kind === 'size' ? now : now - cast);
    const adjustments = adjustmentsLeftOn(limit, on);
    const leftMm = adjustments.reduce((sum, a) => sum + a.leftMm, 0) + liftToComeMm(limit, on, grown);
    const outcome = outcomeOf(roomMm, leftMm, limit.dimension.tightWithinMm.value);
    return [{ series: limit.series, grownMm: now - cast, roomMm, adjustments, outcome }];
  });
}

/** outcomeOf(-1, 20, 3) = 'adjust'; with no adjustment left it is 'outgrown'. */
export function outcomeOf(roomMm: number, leftMm: number, tightWithinMm: number): RoomLeft['outcome'] {
  if (roomMm >= tightWithinMm) return 'room';
  if (roomMm >= 0) return 'tight';
  return leftMm > 0 && roomMm + leftMm >= 0 ? 'adjust' : 'outgrown';
}
