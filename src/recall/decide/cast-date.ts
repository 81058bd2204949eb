import type { DeviceForecast } from '../../forecast/contract.js';
import { dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import type { CastDate, TurnaroundEstimate } from '../contract.js';
import { outgrownChance } from './outgrown-chance.js';

export interface CastDateInput {
  readonly forecast: Pick<DeviceForecast, 'deviceId' | 'dates' | 'probabilityOutgrown'>;
  readonly turnaround: Pick<TurnaroundEstimate, 'samplesDays'>;
  readonly today: IsoDate;
  readonly riskTolerance: number;
  readonly fitWaitDays: number;
  readonly worthItWithinDays: number;
  readonly minimumWindowDays: number;
  /** The funder does not pay for a cast before this date. */
  readonly eligibleFrom?: IsoDate | null;
}

/**
 * Latest safe cast date: the last date d at which the chance of being outgrown before the replacement is fitted,
 * mean over turnarounds T of F(d + T), is at most the tolerance (F: chance outgrown by a date; T independent of F).
 * It may lie before `today`: then it is overdue, and the date stands as it is. Since a forecast says nothing of the
 * time before it was made, a past date is an upper bound: 'should have been cast by then at the latest'.
 * Null where the tolerance is not reached inside the horizon.
 */
export function castDate(input: CastDateInput): CastDate {
  const { forecast, riskTolerance } = input;
  const base = { deviceId: forecast.deviceId, riskTolerance };
  const chance = outgrownChance(forecast);
  if (!chance) return { ...base, latestSafe: null, worthIt: null, riskIfCastToday: 0, overdue: false };
  const waits = input.turnaround.samplesDays.map((d) => d + input.fitWaitDays);
  const risk = (castDay: number, extraDays = 0) =>
    waits.reduce((sum, w) => sum + chance.at(castDay + w + extraDays), 0) / waits.length;
  const today = dayNumber(input.today);
  // Everything is fitted before the forecast begins, so the first day always holds.
  const earliest = chance.firstDay - waits[waits.length - 1] - 1;
  const latest = lastDayWithin(earliest, chance.lastDay, (d) => risk(d) <= riskTolerance) ?? earliest;
  const latestSafeDay = latest < chance.lastDay ? latest : null;
  const wasteful = lastDayWithin(earliest, chance.lastDay, (d) => risk(d, input.worthItWithinDays) < 0.5);
  const worthDay = (wasteful ?? earliest) + 1;
  const windowStart = latestSafeDay === null ? worthDay : latestSafeDay - input.minimumWindowDays;
  const eligible = input.eligibleFrom ? dayNumber(input.eligibleFrom) : Number.NEGATIVE_INFINITY;
  return {
    ...base,
    latestSafe: latestSafeDay === null ? null : isoDate(latestSafeDay),
    worthIt: latestSafeDay === null ? null : isoDate(Math.max(Math.min(worthDay, windowStart), eligible)),
    riskIfCastToday: risk(today),
    overdue: latestSafeDay !== null && latestSafeDay < today,
  };
}

/** Last day in [from, to] where a condition holds that, once false, stays false; null when it never holds. */
function lastDayWithin(from: number, to: number, holds: (day: number) => boolean): number | null {
  if (!holds(from)) return null;
  let low = from;
  let high = to;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (holds(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}
