import type { DeviceForecast } from '../../forecast/contract.js';
import type { IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import type { AdjustStep } from '../contract.js';
import type { LimitRoom } from './room-by-readings.js';

/** Nobody heats a shell for less (common practice, no source). */
const LEAST_MM = 3;

/**
 * What the readings as they stand ask to be eased, whatever growth was expected: a size without a growth curve (ankle or
 * heel width) once they leave no more than its tolerance, any other once they have used all of its room up.
 */
export function adjustByReadings(
  rooms: readonly LimitRoom[],
  forecast: DeviceForecast,
  today: IsoDate,
): AdjustStep | null {
  const followed = new Set(forecast.room.map((r) => seriesKey(r.series)));
  for (const { series, roomMm, adjustments, toleranceMm } of rooms) {
    const [way] = adjustments;
    const least = followed.has(seriesKey(series)) ? 0 : toleranceMm;
    if (roomMm > least || !way) continue;
    const mm = Math.min(Math.floor(way.leftMm), Math.max(LEAST_MM, Math.ceil(LEAST_MM - roomMm)));
    const steps = way.stepMm ? Math.ceil(mm / way.stepMm) : null;
    return { what: way.kind, measure: series.measure, side: series.side, mm, steps, by: today };
  }
  return null;
}
