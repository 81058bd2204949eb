import { DoorpostError } from '../../errors.js';
import type { IsoDate } from '../dates.js';

/** What cannot be in a record, whichever door it came through. */
export interface Fault {
  /** The record, as an error text calls it. */
  readonly what: string;
  readonly field: string;
  /** Left out where the value itself must not stand in an error text, such as a birth date. */
  readonly given?: string;
  readonly accepted: string;
}

/** A refusal's words between what was given and what is accepted. */
export const CANNOT_BE = 'cannot be';

/** Throws at the first fault; `row` counts from 1 where the record is one of several. */
export function refuse(faults: Iterable<Fault>, row?: number): void {
  for (const { what, field, given, accepted } of faults) {
    const value = given === undefined ? '' : ` '${given}'`;
    throw new DoorpostError(
      'invalid-value',
      `${what}: ${field}${value} ${CANNOT_BE}; accepted: ${accepted}`,
      {
        row,
        field,
        given,
        accepted,
      },
    );
  }
}

/** `from` is named by `since` ('birth', 'the cast') and not by its value. */
export function* dateFaults(
  what: string,
  field: string,
  date: IsoDate,
  { from, since, today }: { from: IsoDate; since: string; today: IsoDate },
): Generator<Fault> {
  if (date < from || date > today)
    yield { what, field, given: date, accepted: `a date from ${since} to today` };
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
