import type { Database } from './connect.js';

/** All of `work` or nothing; inside a transaction already, it joins that one. */
export function atomically<T>(db: Database, work: (tx: Database) => Promise<T>): Promise<T> {
  return db.isTransaction ? work(db) : db.transaction().execute(work);
}
