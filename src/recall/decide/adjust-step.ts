import type { AdjustmentDue, DeviceForecast } from '../../forecast/contract.js';
import { daysBetween, type IsoDate } from '../../records/dates.js';
import { seriesKey } from '../../records/measure.js';
import type { AdjustStep } from '../contract.js';
import { dueByChance } from './due-by-chance.js';

const YEAR = 365.25;
/** Nobody heats a shell or moves a strap for less (common practice, no source). */
const LEAST_MM = 3;

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
  const wanted = Math.max(LEAST_MM, (pace * daysAhead) / YEAR - roomNow);
  const { stepMm, extensionLeftMm: left } = due;
  const steps =
    stepMm === null ? null : Math.max(1, Math.min(Math.ceil(wanted / stepMm), Math.floor(left / stepMm)));
  return {
    what: due.kind,
    measure: due.series.measure,
    side: due.series.side,
    mm: steps === null || stepMm === null ? Math.min(Math.ceil(wanted), Math.floor(left)) : steps * stepMm,
    steps,
    by,
  };
}
