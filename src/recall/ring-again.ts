import { addDaysIso, type IsoDate } from '../records/dates.js';
import type { WorkState } from './contract.js';
import { type ClinicWeekInput, clinicDays } from './level/clinic-week.js';

/** A family that was left a message is rung again after so many working days (common practice, no source). */
const WORKING_DAYS = 2;
/** A clinic closed for longer says so in its capacity; the search ends. */
const LONGEST_DAYS = 400;

/** ringAgainOn('2026-11-27', {}) = '2026-12-01': left on a Friday, rung on Tuesday. */
export function ringAgainOn(leftOn: IsoDate, clinic: ClinicWeekInput): IsoDate {
  const { isOpen } = clinicDays(clinic);
  let day = leftOn;
  for (let n = 0, looked = 0; n < WORKING_DAYS && looked < LONGEST_DAYS; looked++) {
    day = addDaysIso(day, 1);
    if (isOpen(day)) n++;
  }
  return day;
}

/** The day to ring again where a message was left; `dayOf` says which day of the clinic a moment fell on. */
export const ringAgainOf = (
  { state, stateAt }: { readonly state: WorkState; readonly stateAt: string | null },
  dayOf: (moment: string) => IsoDate,
  clinic: ClinicWeekInput,
): IsoDate | null => (state === 'left-message' && stateAt ? ringAgainOn(dayOf(stateAt), clinic) : null);
