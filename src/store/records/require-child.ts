import { DoorpostError } from '../../errors.js';
import type { Child } from '../../records/records.js';
import type { Database } from '../connect.js';
import type { Expected, Versioned } from '../contract.js';

export const notFound = (what: string): DoorpostError =>
  new DoorpostError('not-found', `There is no such ${what}`);

export const changedMeanwhile = (expected: Expected, found: number): DoorpostError =>
  new DoorpostError(
    'changed-meanwhile',
    `This is version ${found} by now; the change was made to version ${expected}. Read it again and repeat the change`,
    { field: 'version', given: String(expected), accepted: String(found) },
  );

/** The child, locked against other writers for the rest of the transaction when `lock`. */
export async function requireChild(
  db: Database,
  id: string,
  lock: false | 'update' | 'share' = false,
): Promise<Versioned<Child>> {
  let query = db.selectFrom('children').select(['data', 'version']).where('id', '=', id);
  if (lock === 'update') query = query.forUpdate();
  if (lock === 'share') query = query.forKeyShare();
  const row = await query.executeTakeFirst();
  if (!row) throw notFound('child');
  return { value: row.data, version: row.version };
}
