import type { DeviceForecast, DimensionRoom } from '../../forecast/contract.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';
import type { CheckFigure } from '../contract.js';

const YEAR = 365.25;
/** At the bench nothing is read finer than a millimetre, and no room is ever enough for none. */
const LEAST_MM = 1;

/** The dimension that decides when a device is beyond use, with its room. */
export function decidingRoom(forecast: DeviceForecast): DimensionRoom | null {
  const driver = forecast.drivers[0]?.series;
  return (
    forecast.room.find((r) => r.series.measure === driver?.measure && r.series.side === driver?.side) ??
    forecast.room[0] ??
    null
  );
}

/** How much faster than expected growth may run at the accepted chance: 1 + z SD / mean of the pace. */
export function paceReserve(room: DimensionRoom | null, accepted: number): number {
  if (!room?.paceMmAYear || room.paceSdMmAYear === undefined || room.paceMmAYear <= 0) return 1;
  const share = Math.min(1, room.paceSdMmAYear / room.paceMmAYear);
  return 1 + normalQuantile(1 - accepted) * share;
}

/**
 * What decides at the bench. A device that is not cast on `visit` can be cast at the review after it and fitted a wait
 * later: with less room than growth may take until then (at the accepted chance) it is cast now, else not before then.
 */
export function checkFigure(
  forecast: DeviceForecast,
  accepted: number,
  visit: IsoDate,
  reviewDays: number,
  waitDays: number,
): CheckFigure | null {
  const room = decidingRoom(forecast);
  if (!room?.paceMmAYear) return null;
  const growth = (room.paceMmAYear * paceReserve(room, accepted) * (reviewDays + waitDays)) / YEAR;
  return {
    measure: room.series.measure,
    side: room.series.side,
    castIfRoomAtMostMm: Math.max(LEAST_MM, Math.ceil(growth - 1e-9)),
    elseNotBefore: addDaysIso(visit, reviewDays),
  };
}
