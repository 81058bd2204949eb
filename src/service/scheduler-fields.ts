import { DoorpostError } from '../errors.js';
import type { Child } from '../records/records.js';
import type { Role } from '../store/contract.js';

/** What a scheduler may change of a child: how to reach a family and when it can come. */
export const schedulerFields = [
  'contact',
  'language',
  'transportDays',
  'prefersHolidays',
  'clinician',
  'siblingGroup',
] as const satisfies readonly (keyof Child)[];

/** Throws where a role names a field of a child that is not its to change. */
export function refuseOthersFields(fields: readonly string[], role: Role | 'system' | 'family'): void {
  const refused = fields.filter((f) => !schedulerFields.some((own) => own === f));
  if (role === 'scheduler' && refused.length > 0)
    throw new DoorpostError('not-allowed', 'A scheduler may not change this', {
      field: refused.join(', '),
      accepted: schedulerFields.join(', '),
    });
}
