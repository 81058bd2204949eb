import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import { dimensionLimits } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { type RoomLeft, roomLeft } from '../../rules/room-left.js';
import { castAndLate } from './room-by-readings.js';

/** What a reading at the cast and a late one leave at every limit that has both, whatever growth is expected. */
export function roomsByReadings(
  rule: FamilyRule,
  device: Device,
  record: ChildRecord,
  castDate: IsoDate,
  today: IsoDate,
): (RoomLeft & { readonly toleranceMm: number })[] {
  const atCast = new Map<string, number>();
  const now = new Map<string, number>();
  const limits = dimensionLimits(rule, device, record.events);
  for (const { series } of limits) {
    const pair = castAndLate(record, series, castDate, today);
    if (!pair) continue;
    atCast.set(seriesKey(series), pair.atCast.value);
    now.set(seriesKey(series), pair.late.value);
  }
  return roomLeft(limits, atCast, now, today).map((room) => ({
    ...room,
    toleranceMm: limits.find((l) => l.series === room.series)?.toleranceMm ?? 0,
  }));
}
