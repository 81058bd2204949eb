import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../dates.js';

export interface Wrong {
  readonly field: string;
  /** Left out where the value itself must not stand in an error text, such as a birth date. */
  readonly given?: string;
  readonly accepted: string;
  readonly row?: number;
}

/** The one form of words in which a record is refused, whichever door it came through. */
export function refuse(what: string, { field, given, accepted, row }: Wrong): never {
  const value = given === undefined ? '' : ` '${given}'`;
  throw new DoorpostError('invalid-value', `${what}: ${field}${value} cannot be; accepted: ${accepted}`, {
    row,
    field,
    given,
    accepted,
  });
}

/** Refuses a date outside; `from` is named by `since` ('birth', 'the cast') and not by its value. */
export function checkDate(
  what: string,
  field: string,
  date: IsoDate,
  { from, since, today, row }: { from: IsoDate; since: string; today: IsoDate; row?: number },
): void {
  if (date < from || date > today)
    refuse(what, { field, given: date, accepted: `a date from ${since} to today`, row });
}
