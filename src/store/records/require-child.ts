import { type SqlBool, sql } from 'kysely';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import type { Database } from '../connect.js';
import { notFound } from '../refusals.js';
import type { Versioned } from '../shapes.js';
import { type CaseloadTable, childrenTable, devicesTable, type InPlace } from './caseload-tables.js';

/** Held against other writers for the rest of the transaction: against all, or against those that change it. */
export type Lock = 'update' | 'share';

export const requireChild = (db: Database, id: string, lock?: Lock): Promise<Versioned<Child>> =>
  required(db, childrenTable, id, lock);

export const requireDevice = (db: Database, id: string, lock?: Lock): Promise<Versioned<Device>> =>
  required(db, devicesTable, id, lock);

/** The row, or the refusal that there is none. */
async function required<T>(
  db: Database,
  at: CaseloadTable<T, InPlace>,
  id: string,
  lock?: Lock,
): Promise<Versioned<T>> {
  const row = await db
    .selectFrom(at.table)
    .select(['data', 'version'])
    .where('id', '=', id)
    .$if(lock === 'update', (q) => q.forUpdate())
    .$if(lock === 'share', (q) => q.forKeyShare())
    .executeTakeFirst();
  if (!row) throw notFound(at.name);
  return { value: at.of({ ...row }), version: row.version };
}

/** Those of the ids that are children still, of this status if given: held against being erased meanwhile. */
export async function stillThere(
  tx: Database,
  ids: readonly string[],
  status?: Child['status'],
): Promise<ReadonlySet<string>> {
  const rows = await tx
    .selectFrom('children')
    .select('id')
    .where(sql<SqlBool>`id = any(${ids})`)
    .$if(status !== undefined, (q) => q.where('status', '=', status!))
    .orderBy('id')
    .forKeyShare()
    .execute();
  return new Set(rows.map((r) => r.id));
}
