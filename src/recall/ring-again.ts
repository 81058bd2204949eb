import { addDaysIso, type IsoDate } from '../records/dates.js';
import { isRungToday, type RecallEntry, type WorkState } from './contract.js';
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

interface Called {
  readonly state: WorkState;
  readonly stateAt: string | null;
  readonly entry: Pick<RecallEntry, 'action'>;
}

/**
 * The day to ring again where a message was left: the same day where nothing may wait. `dayOf` says which day of the clinic a
 * moment fell on.
 */
export function ringAgainOf(
  { state, stateAt, entry }: Called,
  dayOf: (moment: string) => IsoDate,
  clinic: ClinicWeekInput,
): IsoDate | null {
  if (state !== 'left-message' || !stateAt) return null;
  const leftOn = dayOf(stateAt);
  return isRungToday(entry.action) ? leftOn : ringAgainOn(leftOn, clinic);
}
