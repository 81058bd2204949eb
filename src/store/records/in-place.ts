import { DoorpostError } from '../../errors.js';
import type { Database } from '../connect.js';
import type { Versioned } from '../shapes.js';
import type { CaseloadTable, InPlace } from './caseload-tables.js';

/** Adds a record; refused where there is one with its id. */
export async function addInPlace<T extends { id: string }>(
  tx: Database,
  at: CaseloadTable<T, InPlace>,
  record: T,
  childId: string,
): Promise<Versioned<T>> {
  const added = await tx
    .insertInto(at.table)
    .values(at.columns(record, childId) as never)
    .onConflict((c) => c.doNothing())
    .returning('version')
    .executeTakeFirst();
  if (!added)
    throw new DoorpostError('already-there', `There is a ${at.name} with this id already`, { field: 'id' });
  return { value: record, version: added.version };
}

/** Puts a record in the place of its version `before`; the database keeps what it was. */
export async function changeInPlace<T extends { id: string }>(
  tx: Database,
  at: CaseloadTable<T, InPlace>,
  record: T,
  childId: string,
  before: number,
): Promise<Versioned<T>> {
  const version = before + 1;
  await tx
    .updateTable(at.table as 'devices')
    .set({ ...at.columns(record, childId), version, updated_at: new Date() } as never)
    .where('id', '=', record.id)
    .execute();
  return { value: record, version };
}
