import { DoorpostError } from '../../errors.js';

/** Refuses what a form said in one of its fields. */
export function cannotBe(field: string, given: string | undefined, accepted: string): never {
  throw new DoorpostError('invalid-value', `${field} '${given ?? ''}' cannot be; accepted: ${accepted}`, {
    field,
    given,
    accepted,
  });
}
