import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { seriesKey } from '../../records/measure.js';
import { dimensionLimits } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { roomLeft } from '../../rules/room-left.js';
import type { AdjustStep } from '../contract.js';
import { castAndLate } from './room-by-readings.js';

/** Nobody heats a shell for less (common practice, no source). */
const LEAST_MM = 3;

/** A size without a growth curve (ankle or heel width) is answered by its readings alone: flared once they use the room up. */
export function adjustByReadings(
  rule: FamilyRule,
  device: Device,
  record: ChildRecord,
  forecast: DeviceForecast,
  castDate: IsoDate,
  today: IsoDate,
): AdjustStep | null {
  const followed = new Set(forecast.room.map((r) => seriesKey(r.series)));
  const atCast = new Map<string, number>();
  const now = new Map<string, number>();
  const limits = dimensionLimits(rule, device, record.events).filter(
    (l) => !followed.has(seriesKey(l.series)),
  );
  for (const { series } of limits) {
    const pair = castAndLate(record, series, castDate, today);
    if (!pair) continue;
    atCast.set(seriesKey(series), pair.atCast.value);
    now.set(seriesKey(series), pair.late.value);
  }
  for (const { series, roomMm, adjustments } of roomLeft(limits, atCast, now, today)) {
    const [way] = adjustments;
    const least = limits.find((l) => l.series === series)?.toleranceMm ?? 0;
    if (roomMm > least || !way) continue;
    const mm = Math.min(Math.floor(way.leftMm), Math.max(LEAST_MM, Math.ceil(LEAST_MM - roomMm)));
    return { what: way.kind, measure: series.measure, side: series.side, mm, steps: null, by: today };
  }
  return null;
}
