import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import { DAYS_A_YEAR, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type MeasureId, type Series, seriesKey } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { type DimensionLimit, dimensionLimits, wearerOf } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { type RoomLeft, roomLeft } from '../../rules/room-left.js';
import { decidingRoom } from './check-figure.js';

/** A reading says how large the child was so many days before and after (common practice, no source). */
const NEAR_DAYS = 31;

/** What is left at one limit by a reading at the cast and a late one, whatever growth is expected. */
export type LimitRoom = RoomLeft & { readonly limit: DimensionLimit; readonly late: Measurement };

/** What they leave of the deciding dimension by the time a new device could be fitted. */
export interface RoomByReadings {
  readonly measure: MeasureId;
  /** Day of the later reading. */
  readonly date: IsoDate;
  readonly leftMm: number;
  /** One SD of where such a device's real limit lies, and what a reviewer calls tight before it is eased, mm. */
  readonly toleranceMm: number;
  readonly tightWithinMm: number;
}

/** Null where the deciding dimension was not read both near the cast and lately. */
export function roomByReadings(
  forecast: DeviceForecast,
  rooms: readonly LimitRoom[],
  today: IsoDate,
  waitDays: number,
): RoomByReadings | null {
  const room = decidingRoom(forecast);
  if (!room?.paceMmAYear || forecast.outcome === 'full-grown') return null;
  const read = rooms.find((r) => seriesKey(r.series) === seriesKey(room.series));
  if (!read) return null;
  const { late, limit } = read;
  const more = room.extensionLeftMm ?? 0;
  const grownSince = (room.paceMmAYear * (daysBetween(late.date, today) + waitDays)) / DAYS_A_YEAR;
  return {
    measure: late.measure,
    date: late.date,
    leftMm: read.roomMm + more - grownSince,
    toleranceMm: limit.toleranceMm,
    tightWithinMm: limit.dimension.tightWithinMm.value + more,
  };
}

/** The reading nearest the cast and the newest, where both are near enough to speak of those days. */
function castAndLate(
  record: ChildRecord,
  { measure, side }: Series,
  castDate: IsoDate,
  today: IsoDate,
): { readonly atCast: Measurement; readonly late: Measurement } | null {
  const all = record.measurements.filter((m) => m.measure === measure && m.date <= today);
  // One side measured speaks for both.
  const same = all.filter((m) => m.side === side);
  const own = (same.length > 0 ? same : all).sort((a, b) => a.date.localeCompare(b.date));
  const late = own.at(-1);
  const distance = (m: Measurement) => Math.abs(daysBetween(m.date, castDate));
  const atCast = own.toSorted((a, b) => distance(a) - distance(b))[0];
  if (!late || !atCast || atCast === late || distance(atCast) > NEAR_DAYS) return null;
  return daysBetween(late.date, today) > NEAR_DAYS ? null : { atCast, late };
}

/** What readings leave at every limit that has both. */
export function roomsByReadings(
  rule: FamilyRule,
  device: Device,
  record: ChildRecord,
  castDate: IsoDate,
  today: IsoDate,
): LimitRoom[] {
  return dimensionLimits(rule, device, record.events, wearerOf(record)).flatMap((limit) => {
    const pair = castAndLate(record, limit.series, castDate, today);
    if (!pair) return [];
    const key = seriesKey(limit.series);
    const [atCast, now] = [pair.atCast, pair.late].map((m) => new Map([[key, m.value]]));
    return roomLeft([limit], atCast, now, today).map((room) => ({ ...room, limit, late: pair.late }));
  });
}
