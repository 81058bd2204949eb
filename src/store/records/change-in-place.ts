import type { Database } from '../connect.js';
import type { CaseloadTable, InPlace } from './caseload-tables.js';

/** Puts a record in the place of its version `before`; the database keeps what it was. Gives the new version. */
export async function changeInPlace<T extends { id: string }>(
  tx: Database,
  at: CaseloadTable<T, InPlace>,
  record: T,
  childId: string,
  before: number,
): Promise<number> {
  const version = before + 1;
  await tx
    .updateTable(at.table as 'devices')
    .set({ ...at.columns(record, childId), version, updated_at: new Date() } as never)
    .where('id', '=', record.id)
    .execute();
  return version;
}
