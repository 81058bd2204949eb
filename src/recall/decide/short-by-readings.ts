import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import { daysBetween, type IsoDate } from '../../records/dates.js';
import type { DeviceHistory } from '../../records/device-history.js';
import type { MeasureId } from '../../records/measure.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { decidingRoom } from './check-figure.js';

const YEAR = 365.25;
/** A reading says how large the child was so many days before and after (common practice, no source). */
const NEAR_DAYS = 31;

/**
 * The deciding dimension, where the plain difference of two readings (at the cast and lately) leaves next to no
 * room by the time a new device could be fitted, whatever growth is expected to have been; null else, and null after a
 * person found room.
 */
export function shortByReadings(
  record: ChildRecord,
  forecast: DeviceForecast,
  history: DeviceHistory,
  today: IsoDate,
  waitDays: number,
  rule: FamilyRule | null,
): { readonly measure: MeasureId; readonly date: IsoDate } | null {
  const room = decidingRoom(forecast);
  const said = forecast.lastVerdict;
  if (!room?.paceMmAYear || forecast.outcome !== 'forecast') return null;
  const { measure, side } = room.series;
  const own = record.measurements
    .filter((m) => m.measure === measure && m.side === side && m.date <= today)
    .sort((a, b) => a.date.localeCompare(b.date));
  const last = own.at(-1);
  const distance = (date: IsoDate) => Math.abs(daysBetween(date, history.castDate));
  const atCast = own.toSorted((a, b) => distance(a.date) - distance(b.date))[0];
  if (!last || !atCast || atCast === last || distance(atCast.date) > NEAR_DAYS) return null;
  if (daysBetween(last.date, today) > NEAR_DAYS) return null;
  if (said && said.verdict !== 'outgrown' && said.date >= last.date) return null;
  const grownSince = (room.paceMmAYear * (daysBetween(last.date, today) + waitDays)) / YEAR;
  const left = room.allowanceMm - (last.value - atCast.value) - grownSince;
  // Next to nothing: within one SD of where such a device's real limit lies.
  const least = rule?.dimensions.find((d) => d.measure === measure)?.toleranceMm.value ?? 0;
  return left <= least ? { measure, date: last.date } : null;
}
