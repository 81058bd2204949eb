import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../dates.js';

/** What cannot be in a record, whichever door it came through. */
export interface Fault {
  /** The record, as an error text calls it. */
  readonly what: string;
  readonly field: string;
  /** Left out where the value itself must not stand in an error text, such as a birth date. */
  readonly given?: string;
  /** Said of the value; 'cannot be' where nothing more is to be said. */
  readonly why?: string;
  readonly accepted: string;
}

export const CANNOT_BE = 'cannot be';
export const IN_FUTURE = 'lies in the future';
export const acceptedDates = (since: string): string => `a date from ${since} to today`;

/** Throws at the first fault; `row` counts from 1 where the record is one of several. */
export function refuse(faults: Iterable<Fault>, row?: number): void {
  for (const { what, field, given, why = CANNOT_BE, accepted } of faults) {
    const value = given === undefined ? '' : ` '${given}'`;
    throw new DoorpostError('invalid-value', `${what}: ${field}${value} ${why}; accepted: ${accepted}`, {
      row,
      field,
      given,
      accepted,
    });
  }
}

/** `from` is named by `since` ('birth', 'the cast') and not by its value. */
export function* dateFaults(
  what: string,
  field: string,
  date: IsoDate,
  { from, since, today }: { from: IsoDate; since: string; today: IsoDate },
): Generator<Fault> {
  if (date >= from && date <= today) return;
  const why = date > today ? IN_FUTURE : `lies before ${since}`;
  yield { what, field, given: date, why, accepted: acceptedDates(since) };
}

/** A number outside its range; `unit` stands behind it. */
export function* rangeFaults(
  what: string,
  field: string,
  value: number,
  [min, max]: readonly [number, number],
  unit: string,
): Generator<Fault> {
  if (!(value >= min && value <= max))
    yield { what, field, given: String(value), accepted: `${min} to ${max} ${unit}` };
}
