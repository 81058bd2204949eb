import type { Database } from '../connect.js';
import { notFound } from './require-child.js';

/** The device's row, or the refusal that there is none; with `lock` nobody else changes it meanwhile. */
export async function requireDevice(db: Database, id: string, lock = false) {
  const row = await db
    .selectFrom('devices')
    .select(['data', 'version'])
    .where('id', '=', id)
    .$if(lock, (q) => q.forUpdate())
    .executeTakeFirst();
  if (!row) throw notFound('device');
  return row;
}
