import type { AdjustmentDue, DeviceForecast } from '../../forecast/contract.js';
import { DAYS_A_YEAR, daysBetween, type IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import type { Adjustment } from '../../rules/dimension-limits.js';
import type { AdjustStep } from '../contract.js';
import { dueByChance } from './due-by-chance.js';

/** Nobody heats a shell or moves a strap for less (common practice, no source). */
export const LEAST_EASED_MM = 3;

/** The first adjustment that falls due, with how far to set it so that it lasts over the review after the next. */
export function adjustStep(
  forecast: DeviceForecast,
  accepted: number,
  today: IsoDate,
  reviewDays: number,
): AdjustStep | null {
  const due = (forecast.adjustments ?? []).flatMap((a) => {
    const by = dueByChance(a.days, accepted);
    return by === null ? [] : [{ a, by }];
  });
  const first = due.sort((x, y) => x.by.localeCompare(y.by))[0];
  return first ? stepOf(first.a, first.by, forecast, today, reviewDays) : null;
}

function stepOf(
  due: AdjustmentDue,
  by: IsoDate,
  forecast: DeviceForecast,
  today: IsoDate,
  reviewDays: number,
): AdjustStep {
  const room = forecast.room.find((r) => seriesKey(r.series) === seriesKey(due.series));
  const pace = Math.max(0, room?.paceMmAYear ?? 0);
  const roomNow = room ? room.roomMm - (room.extensionLeftMm ?? 0) : 0;
  const daysAhead = Math.max(0, daysBetween(today, by)) + 2 * reviewDays;
  const wanted = Math.max(LEAST_EASED_MM, (pace * daysAhead) / DAYS_A_YEAR - roomNow);
  return stepBy({ ...due.series, ...due, leftMm: due.extensionLeftMm }, wanted, by);
}

/** As much as is wanted and left; of a bar whole holes. */
export function stepBy(
  { kind: what, measure, side, stepMm, leftMm }: Adjustment,
  wantedMm: number,
  by: IsoDate,
): AdjustStep {
  const steps = stepMm && Math.max(1, Math.min(Math.ceil(wantedMm / stepMm), Math.floor(leftMm / stepMm)));
  const mm = steps && stepMm ? steps * stepMm : Math.min(Math.ceil(wantedMm), Math.floor(leftMm));
  return { what, measure, side, mm, steps, by };
}
