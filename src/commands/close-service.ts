import type { buildService } from '../app.js';
import type { Store } from '../store/contract.js';
import { exitCodes } from './exit-codes.js';
import type { OpenDatabase } from './open-database.js';
import type { Workers } from './start-workers.js';
import { terminal } from './terminal.js';

/** What a service has opened so far. */
export interface OpenParts {
  database?: OpenDatabase;
  store?: Store;
  app?: Awaited<ReturnType<typeof buildService>>;
  workers?: Workers;
}

/** Everything is gone this long after a service was asked to stop. */
export const DEADLINE_MS = 9500;
/** Requests in flight and jobs in hand may take so long to end. */
export const GRACE_SECONDS = 4.5;

const closing = new WeakMap<OpenParts, Promise<void>>();

/**
 * Ends in order: requests in flight are answered and jobs handed back while the database still runs. Asked twice, it is
 * done once. What a start still under way opens meanwhile is closed by the second call.
 */
export async function closeService(open: OpenParts): Promise<void> {
  if (!closing.has(open))
    setTimeout(() => {
      terminal.err('doorpost: did not end in time and was ended');
      process.exit(exitCodes.failed);
    }, DEADLINE_MS).unref();
  const before = closing.get(open) ?? Promise.resolve();
  const now = before.then(() => closeParts(open));
  closing.set(open, now);
  await now;
}

async function closeParts(open: OpenParts): Promise<void> {
  const { workers, app, store, database } = open;
  open.workers = open.app = open.store = open.database = undefined;
  await Promise.all([workers?.stop(GRACE_SECONDS), app && closeServer(app)]);
  await within(1500, store?.close(1));
  await database?.stop(2);
}

/** Takes no more requests and answers those in flight; a connection that hangs on is cut. */
async function closeServer(app: NonNullable<OpenParts['app']>): Promise<void> {
  const cut = setTimeout(() => app.server.closeAllConnections(), GRACE_SECONDS * 1000);
  await within(GRACE_SECONDS * 1000 + 500, app.close());
  clearTimeout(cut);
}

/** A request cut off may still hold a connection to the database: that is not waited for. */
async function within(ms: number, work: Promise<unknown> | undefined): Promise<void> {
  await Promise.race([
    work?.catch((error: Error) => terminal.err(`doorpost: while stopping: ${error.message}`)),
    new Promise((r) => setTimeout(r, ms).unref()),
  ]);
}
