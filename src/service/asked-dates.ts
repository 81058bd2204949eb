import { DoorpostError } from '../errors.js';
import { GROWN_YEARS } from '../records/age.js';
import { addDaysIso, DAYS_A_YEAR, type IsoDate } from '../records/dates.js';

/** How far a question may reach: what is further says nothing that helps, and takes as long to compute as it is far. */
const FURTHEST_DAYS = 730;
/** No brace lasts longer. */
const LONGEST_DAYS = 1826;

/** Furthest day a visit or a cast is imagined on. */
export const furthest = (today: IsoDate): IsoDate => addDaysIso(today, FURTHEST_DAYS);
export const earliest = (today: IsoDate): IsoDate => addDaysIso(today, -FURTHEST_DAYS);

/** The last day that can be asked of a device cast then. */
export function lastDayAsked(birthDate: IsoDate, cast: IsoDate): IsoDate {
  const longest = addDaysIso(cast, LONGEST_DAYS);
  const grown = addDaysIso(birthDate, Math.round(GROWN_YEARS * DAYS_A_YEAR));
  return grown > cast && grown < longest ? grown : longest;
}

export function checkAsked(field: string, given: IsoDate, from: IsoDate, to: IsoDate): void {
  if (given >= from && given <= to) return;
  throw new DoorpostError('invalid-value', 'This lies outside what can be asked about', {
    field,
    given,
    accepted: `${from} to ${to}`,
  });
}
