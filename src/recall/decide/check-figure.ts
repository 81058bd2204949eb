import type { DeviceForecast, DimensionRoom } from '../../forecast/contract.js';
import { addDaysIso, DAYS_A_YEAR, daysBetween, type IsoDate } from '../../records/dates.js';
import { normalCdf } from '../../statistics/normal-cdf.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';
import type { CheckFigure } from '../contract.js';

const WEEK = 7;
/** 10 and 90 % quantiles lie so many SD apart. */
const SD_FROM_10_TO_90 = 2.563;
/** Below this chance, or above one less it, everybody knows what the bench will find. */
const CERTAIN = 0.05;
/** At the bench nothing is read finer than a millimetre, and no room is ever enough for none. */
export const LEAST_MM = 1;

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
  const growth = (room.paceMmAYear * paceReserve(room, accepted) * (reviewDays + waitDays)) / DAYS_A_YEAR;
  return {
    measure: room.series.measure,
    side: room.series.side,
    castIfRoomAtMostMm: Math.max(LEAST_MM, Math.ceil(growth - 1e-9)),
    elseNotBefore: addDaysIso(visit, reviewDays),
  };
}

/** Chance that the room found on `visit` is at most the deciding figure; null where the room is not known. */
export function figureChance(
  forecast: DeviceForecast,
  figure: CheckFigure,
  today: IsoDate,
  visit: IsoDate,
): number | null {
  const room = decidingRoom(forecast);
  if (!room) return null;
  const grown = ((room.paceMmAYear ?? 0) * Math.max(0, daysBetween(today, visit))) / DAYS_A_YEAR;
  const sd = Math.max(LEAST_MM / 2, (room.roomHighMm - room.roomLowMm) / SD_FROM_10_TO_90);
  return normalCdf((figure.castIfRoomAtMostMm - room.roomMm + grown) / sd);
}

/** What a look would find: decided by the figure, or known before and so no matter for a look. */
export interface Look {
  readonly figure: CheckFigure | null;
  /** 'cast': there is sure to be less room than the figure; 'leave': sure to be more; null where the bench decides. */
  readonly foregone: 'cast' | 'leave' | null;
}

/** The child can be seen again so soon, days (common practice, no source). */
const SOONEST_LOOK_DAYS = 28;

/**
 * The deciding figure for the usual review; where room enough until then is not to be had, for a sooner one; and none where
 * even then everybody knows what the bench will find.
 */
export function lookAt(
  forecast: DeviceForecast,
  accepted: number,
  today: IsoDate,
  visit: IsoDate,
  reviewDays: number,
  waitDays: number,
): Look {
  const soonest = Math.min(reviewDays, SOONEST_LOOK_DAYS);
  let foregone: Look['foregone'] = null;
  for (let days = reviewDays; days >= soonest; days -= WEEK) {
    const figure = checkFigure(forecast, accepted, visit, days, waitDays);
    if (!figure) return { figure: null, foregone: null };
    const chance = figureChance(forecast, figure, today, visit);
    foregone = chance === null ? null : known(chance);
    if (foregone !== 'cast') return { figure: foregone === null ? figure : null, foregone };
  }
  return { figure: null, foregone };
}

function known(chance: number): Look['foregone'] {
  if (chance > 1 - CERTAIN) return 'cast';
  return chance < CERTAIN ? 'leave' : null;
}
