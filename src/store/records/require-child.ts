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
