import { DoorpostError } from '../errors.js';
import { schedulerFields } from '../records/child-fields.js';
import type { Role } from '../store/contract.js';

/** Throws where a role names a field of a child that is not its to change. */
export function refuseOthersFields(fields: readonly string[], role: Role | 'system' | 'family'): void {
  const refused = fields.filter((f) => !schedulerFields.some((own) => own === f));
  if (role === 'scheduler' && refused.length > 0)
    throw new DoorpostError('not-allowed', 'A scheduler may not change this', {
      field: refused.join(', '),
      accepted: schedulerFields.join(', '),
    });
}
