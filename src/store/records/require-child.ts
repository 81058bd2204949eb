import { type SqlBool, sql } from 'kysely';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import type { Database } from '../connect.js';
import { notFound } from '../refusals.js';
import type { Versioned } from '../shapes.js';

/** Held against other writers for the rest of the transaction: against all, or against those that change it. */
export type Lock = 'update' | 'share';

export const requireChild = (db: Database, id: string, lock?: Lock): Promise<Versioned<Child>> =>
  required(db, 'children', 'child', id, lock) as Promise<Versioned<Child>>;

export const requireDevice = (db: Database, id: string, lock?: Lock): Promise<Versioned<Device>> =>
  required(db, 'devices', 'device', id, lock) as Promise<Versioned<Device>>;

/** The row, or the refusal that there is none. */
async function required(
  db: Database,
  table: 'children' | 'devices',
  name: string,
  id: string,
  lock?: Lock,
): Promise<Versioned<unknown>> {
  const row = await db
    .selectFrom(table)
    .select(['data', 'version'])
    .where('id', '=', id)
    .$if(lock === 'update', (q) => q.forUpdate())
    .$if(lock === 'share', (q) => q.forKeyShare())
    .executeTakeFirst();
  if (!row) throw notFound(name);
  return { value: row.data, version: row.version };
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
