import { randomBytes } from 'node:crypto';
import { sql } from 'kysely';
import { DoorpostError } from '../errors.js';
import { atomically } from './atomically.js';
import { streamBackup } from './backup.js';
import { connect, type Database } from './connect.js';
import type { Store } from './contract.js';
import { isMigrated, migrate } from './migrate.js';
import { repositoriesOn } from './repositories.js';
import { openQueue, type Queue, sendJob } from './work/queue.js';

/** A person does not wait longer for a page; a job may ask more at once. */
export const ANSWERS_WITHIN_MS = 15_000;
const WORKER_ANSWERS_WITHIN_MS = 300_000;
const WRITING_CONNECTIONS = 2;
/** Whoever asks for readiness usually waits five seconds. */
const READY_WITHIN_MS = 4000;

/** Connects and brings the tables up to date. `secretKey` overrides the one made and kept in the database. */
export async function openStore(
  url: string,
  options: {
    secretKey?: string | null;
    connections?: number;
    /** Keeps the clock and sweeps the queue too. */
    worker?: boolean;
    jobLeaseSeconds?: number;
    onQueueError?: (error: Error) => void;
    /** What the keeper of the database knows to be wrong with it just now. */
    trouble?: () => DoorpostError | null;
  } = {},
): Promise<Store> {
  let diskFull = false;
  const { worker = false } = options;
  const open = (max: number | undefined, goesLast: boolean) =>
    connect(url, max, {
      failed: (error) => {
        if (error instanceof DoorpostError && error.code === 'disk-full') diskFull = true;
      },
      name: worker ? 'doorpost-worker' : 'doorpost',
      goesLast,
      answersWithinMs: worker ? WORKER_ANSWERS_WITHIN_MS : ANSWERS_WITHIN_MS,
    });
  const db = open(options.connections, worker);
  // A worker reads behind everybody. What it writes is waited for: whoever writes to the log holds up all who do.
  const writing = worker ? open(WRITING_CONNECTIONS, false) : db;
  try {
    await bringUpToDate(url);
    const queue = await openQueue(url, {
      worker,
      leaseSeconds: options.jobLeaseSeconds ?? 45,
      onError: options.onQueueError ?? (() => {}),
    });
    const looked = async () => {
      if (diskFull) await tryToWrite(db);
      diskFull = false;
      if (!(await isMigrated(db)))
        throw new DoorpostError('database-unavailable', 'The tables of the database are not up to date');
    };
    const ready = async () => {
      const trouble = options.trouble?.();
      if (trouble) throw trouble;
      await within(READY_WITHIN_MS, looked());
    };
    const on = (of: Database) =>
      storeOn(of, queue, options.secretKey ?? null, ready, (to) => streamBackup(url, to));
    const store = on(db);
    if (!worker) return store;
    const close = async (seconds?: number) => {
      await store.close(seconds);
      await writing.destroy();
    };
    return { ...store, transaction: on(writing).transaction, close };
  } catch (error) {
    await db.destroy();
    if (worker) await writing.destroy();
    throw error;
  }
}

/** On a connection of its own, which may take its time: a step over a large table does. */
async function bringUpToDate(url: string): Promise<void> {
  const db = connect(url, 1);
  try {
    await reach(db);
    await migrate(db);
  } finally {
    await db.destroy();
  }
}

async function within(ms: number, work: Promise<void>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(
      () =>
        reject(new DoorpostError('database-unavailable', `The database does not answer in ${ms / 1000} s`)),
      ms,
    );
  });
  await Promise.race([work, late]).finally(() => clearTimeout(timer));
}

async function reach(db: Database): Promise<void> {
  try {
    await sql`select 1`.execute(db);
  } catch (error) {
    const { code } = ((error as Error).cause ?? error) as { code?: string };
    throw new DoorpostError(
      'database-unavailable',
      `The database does not answer (${code ?? 'no code'}): check DATABASE_URL`,
    );
  }
}

/** Does the disk take rows again? They are gone with the transaction. */
async function tryToWrite(db: Database): Promise<void> {
  await db.transaction().execute(async (tx) => {
    await sql`create temporary table room_on_disk on commit drop as select n, md5(n::text) from generate_series(1, 20000) n`.execute(
      tx,
    );
  });
}

/** The repositories on a connection or on an open transaction. */
function storeOn(
  db: Database,
  queue: Queue,
  secretKey: string | null,
  ready: () => Promise<void>,
  backup: Store['backup'],
): Store {
  const secret = (name: string) =>
    secretKey === null ? keptSecret(db, name) : Promise.resolve(`${secretKey}/${name}`);
  return {
    ...repositoriesOn(db, () => secret('family-links')),
    queue: queue.work,
    enqueue: (name, data) => sendJob(queue.boss, db, name, data),
    secret,
    ready,
    backup,
    async close(seconds = 5) {
      await queue.close(seconds);
      await db.destroy();
    },
    transaction: (work) => atomically(db, (tx) => work(storeOn(tx, queue, secretKey, ready, backup))),
  };
}

async function keptSecret(db: Database, name: string): Promise<string> {
  await db
    .insertInto('secrets')
    .values({ name, value: randomBytes(48).toString('base64url') })
    .onConflict((c) => c.doNothing())
    .execute();
  const row = await db
    .selectFrom('secrets')
    .select('value')
    .where('name', '=', name)
    .executeTakeFirstOrThrow();
  return row.value;
}
