import { DoorpostError } from '../../errors.js';
import { type IsoDate, isIsoDate } from '../../records/dates.js';

/** Refuses what a form said in one of its fields. */
export function cannotBe(field: string, given: string | undefined, accepted: string): never {
  throw new DoorpostError('invalid-value', `${field} '${given ?? ''}' cannot be; accepted: ${accepted}`, {
    field,
    given,
    accepted,
  });
}

export const typedDay = (field: string, given = ''): IsoDate =>
  isIsoDate(given) ? given : cannotBe(field, given, 'year-month-day');

export const oneOf = <T extends string>(field: string, given: string | undefined, known: readonly T[]): T =>
  known.find((k) => k === given) ?? cannotBe(field, given, known.join(', '));
