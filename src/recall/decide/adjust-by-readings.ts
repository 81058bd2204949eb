import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device, DeviceEvent } from '../../records/device.js';
import { isOfUnknownAmount } from '../../records/device-history.js';
import { seriesKey } from '../../records/measure.js';
import { type Adjustment, adjustmentsLeftOn, dimensionLimits } from '../../rules/dimension-limits.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
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
    return stepBy(way, Math.max(LEAST_MM, Math.ceil(LEAST_MM - roomMm)), today);
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
  return way ? stepBy(way, LEAST_MM, today) : null;
}

/** As much as is wanted and left; of a bar whole holes. */
function stepBy(way: Adjustment, wantedMm: number, by: IsoDate): AdjustStep {
  const { kind: what, measure, side, stepMm, leftMm } = way;
  const steps = stepMm && Math.min(Math.ceil(wantedMm / stepMm), Math.floor(leftMm / stepMm));
  const mm = steps && stepMm ? steps * stepMm : Math.min(Math.floor(leftMm), wantedMm);
  return { what, measure, side, mm, steps, by };
}
