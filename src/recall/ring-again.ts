import { addDaysIso, type IsoDate } from '../records/dates.js';
import type { WorkState } from './contract.js';

/** A family that was left a message is rung again after so many working days (common practice, no source). */
const WORKING_DAYS = 2;

/** ringAgainOn('2026-11-27') = '2026-12-01': left on a Friday, rung on Tuesday. */
export function ringAgainOn(leftOn: IsoDate): IsoDate {
  let day = leftOn;
  for (let n = 0; n < WORKING_DAYS; ) {
    day = addDaysIso(day, 1);
    const weekday = new Date(`${day}T00:00:00Z`).getUTCDay();
    if (weekday !== 0 && weekday !== 6) n++;
  }
  return day;
}

/** The day to ring again where a message was left; `dayOf` says which day of the clinic a moment fell on. */
export const ringAgainOf = (
  { state, stateAt }: { readonly state: WorkState; readonly stateAt: string | null },
  dayOf: (moment: string) => IsoDate,
): IsoDate | null => (state === 'left-message' && stateAt ? ringAgainOn(dayOf(stateAt)) : null);
