import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../../records/dates.js';
import type { TurnaroundEstimate } from '../contract.js';
import type { BeyondUseChance } from './beyond-use-chance.js';

/** Days from a cast to its fitting that are planned for: the turnaround at its 80th percentile and the wait for the family. */
export const plannedWait = (turnaround: Pick<TurnaroundEstimate, 'p80Days'>, fitWaitDays: number): number =>
  turnaround.p80Days + fitWaitDays;

/**
 * Day to cast by: the day on which the chance of being beyond use reaches the accepted one, less the wait. It hangs on
 * the record alone, so it stays where it is while nothing new is known, and may lie in the past; but never before the
 * last day a person found room (`notBefore`). Null where the chance is not reached inside the horizon.
 */
export function castBy(
  chance: Pick<BeyondUseChance, 'dayOf'>,
  accepted: number,
  waitDays: number,
  notBefore: IsoDate | null,
): IsoDate | null {
  const day: DayNumber | null = chance.dayOf(Math.min(0.5, accepted));
  if (day === null) return null;
  const cast = day - Math.ceil(waitDays);
  return isoDate(notBefore === null ? cast : Math.max(cast, Math.min(day, dayNumber(notBefore))));
}
