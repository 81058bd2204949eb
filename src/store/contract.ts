/**
 * What the store promises to service, pages and commands. Ground rows are what people entered; measurements,
 * markers and device events are append-only (a correction is a new revision, the original stays). Every method that
 * touches a child's data takes the `actor` and writes its own audit row in the same transaction, so nobody can forget.
 * Ids are stable text; `version` is for lost-update checks (HTTP ETag) and starts at 1.
 */

import type { Writable } from 'node:stream';
import type { Repositories } from './repositories.js';
import type { JobData, JobName, WorkQueue } from './shapes.js';

export * from './shapes.js';

export interface Store extends Repositories {
  /** Puts work into the queue, in this transaction where it is one. */
  enqueue<N extends JobName>(name: N, data: JobData[N]): Promise<void>;
  readonly queue: WorkQueue;
  /** A random secret made once and kept, the same on every host. */
  secret(name: string): Promise<string>;
  /** Throws 'database-unavailable' unless the database answers and is migrated. */
  ready(): Promise<void>;
  /** All that is kept, gzipped, as restore reads it; the number of rows once all are written. */
  backup(to: Writable): Promise<number>;
  /** Jobs in hand have so many seconds to end (5 when not said), then they are handed back. */
  close(seconds?: number): Promise<void>;
  /** Everything written by `work` is kept together or not at all. */
  transaction<T>(work: (store: Store) => Promise<T>): Promise<T>;
}
