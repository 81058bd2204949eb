import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { isOfUnknownAmount } from '../../records/device-history.js';
import { seriesKey } from '../../records/measure.js';
import { adjustmentsLeftOn, dimensionLimits } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import type { AdjustStep } from '../contract.js';
import { LEAST_EASED_MM, stepBy } from './adjust-step.js';
import type { LimitRoom } from './room-by-readings.js';

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
  for (const { series, roomMm, adjustments, limit } of rooms) {
    const [way] = adjustments;
    const least = followed.has(seriesKey(series)) ? 0 : limit.toleranceMm;
    if (roomMm > least || !way) continue;
    return stepBy(way, LEAST_EASED_MM + Math.max(0, -roomMm), today);
  }
  return null;
}

/** A reviewer named what is tight, it can be eased, and nobody has eased it since: asked for whatever the readings leave. */
export function adjustAsJudged(
  rule: FamilyRule,
  device: Device,
  { child, events }: ChildRecord,
  said: DeviceForecast['lastVerdict'],
  today: IsoDate,
): AdjustStep | null {
  if (said?.verdict !== 'tight' || said.measure === null) return null;
  const eased = (e: DeviceEvent) =>
    e.deviceId === device.id && e.kind === 'adjusted' && !isOfUnknownAmount(e) && e.date >= said.date;
  if (events.some(eased)) return null;
  // What a person named counts, measured or not.
  const wearer = { birthDate: child.birthDate, measured: new Set([said.measure]) };
  const [way] = dimensionLimits(rule, device, events, wearer)
    .filter(
      ({ series }) => series.measure === said.measure && [null, 'none', series.side].includes(said.side),
    )
    .flatMap((limit) => adjustmentsLeftOn(limit, today));
  return way ? stepBy(way, LEAST_EASED_MM, today) : null;
}
