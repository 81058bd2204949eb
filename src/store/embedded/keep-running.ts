import pg from 'pg';
import { DoorpostError } from '../../errors.js';
import { tellsOfFullDisk } from './cluster.js';

export interface KeptDatabase {
  /** What is wrong with it just now, null while it answers. */
  trouble(): DoorpostError | null;
  /** Gives up keeping it; the server goes on. */
  end(): Promise<void>;
}

const FIRST_WAIT_MS = 100;
const LONGEST_WAIT_MS = 10_000;

/**
 * Watches a server over a connection of its own and raises it again, waiting longer after each failure, for as long as
 * it takes. A server that recovers by itself (one session was killed) is only waited for.
 */
export async function keepRunning(
  url: string,
  using: {
    raise(): Promise<unknown>;
    /** What the server wrote last. */
    logged(): Promise<string>;
    log(line: string): void;
  },
): Promise<KeptDatabase> {
  let trouble: DoorpostError | null = null;
  let ended = false;
  let wake = () => {};
  let watching: pg.Client | null = null;
  let raising: Promise<void> = Promise.resolve();

  const watch = async (): Promise<void> => {
    const client = new pg.Client({
      connectionString: url,
      application_name: 'doorpost-owner',
      connectionTimeoutMillis: 5000,
      keepAlive: true,
    });
    client.on('error', () => {});
    await client.connect();
    watching = client;
    client.on('end', () => {
      if (ended || watching !== client) return;
      trouble = new DoorpostError(
        'database-unavailable',
        'The built-in database has stopped and is being started again: try again in a moment',
      );
      using.log(trouble.message);
      raising = raiseUntilBack();
    });
  };

  const raiseUntilBack = async (): Promise<void> => {
    for (let wait = FIRST_WAIT_MS; !ended; wait = Math.min(wait * 2, LONGEST_WAIT_MS)) {
      try {
        await watch();
        trouble = null;
        using.log('The built-in database answers again');
        return;
      } catch {
        if ((await using.raise()) === 'failed' && tellsOfFullDisk(await using.logged()))
          trouble = new DoorpostError(
            'disk-full',
            'The disk of the data folder is full: the built-in database starts again when there is room',
          );
      }
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, wait);
        wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
  };

  await watch();
  return {
    trouble: () => trouble,
    async end() {
      ended = true;
      wake();
      await raising;
      await watching?.end().catch(() => {});
    },
  };
}
