import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import { DAYS_A_YEAR, daysBetween, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { DeviceHistory } from '../../records/device-history.js';
import { type MeasureId, type Series, seriesKey } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { dimensionLimits, wearerOf } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { type RoomLeft, roomLeft } from '../../rules/room-left.js';
import { decidingRoom } from './check-figure.js';

/** A reading says how large the child was so many days before and after (common practice, no source). */
const NEAR_DAYS = 31;

/** What the plain difference of two readings leaves, whatever growth is expected to have been. */
export interface RoomByReadings {
  readonly measure: MeasureId;
  /** Day of the later reading. */
  readonly date: IsoDate;
  /** Left by the time a new device could be fitted, mm. */
  readonly leftMm: number;
  /** One SD of where such a device's real limit lies, and what a reviewer calls tight before it is eased, mm. */
  readonly toleranceMm: number;
  readonly tightWithinMm: number;
}

/** The deciding dimension by a reading at the cast and a late one; null without both. */
export function roomByReadings(
  record: ChildRecord,
  forecast: DeviceForecast,
  history: DeviceHistory,
  today: IsoDate,
  waitDays: number,
  rule: FamilyRule | null,
): RoomByReadings | null {
  const room = decidingRoom(forecast);
  if (!room?.paceMmAYear || forecast.outcome === 'full-grown') return null;
  const pair = castAndLate(record, room.series, history.castDate, today);
  if (!pair) return null;
  const { measure } = room.series;
  const { late, atCast } = pair;
  const grownSince = (room.paceMmAYear * (daysBetween(late.date, today) + waitDays)) / DAYS_A_YEAR;
  const dimension = rule?.dimensions.find((d) => d.measure === measure);
  return {
    measure,
    date: late.date,
    leftMm: room.allowanceMm - (late.value - atCast.value) - grownSince,
    toleranceMm: dimension?.toleranceMm.value ?? 0,
    tightWithinMm: (dimension?.tightWithinMm.value ?? 0) + (room.extensionLeftMm ?? 0),
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

/** What is left at one limit. */
export type LimitRoom = RoomLeft & { readonly toleranceMm: number };

/** What a reading at the cast and a late one leave at every limit that has both, whatever growth is expected. */
export function roomsByReadings(
  rule: FamilyRule,
  device: Device,
  record: ChildRecord,
  castDate: IsoDate,
  today: IsoDate,
): LimitRoom[] {
  const atCast = new Map<string, number>();
  const now = new Map<string, number>();
  const limits = dimensionLimits(rule, device, record.events, wearerOf(record));
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
