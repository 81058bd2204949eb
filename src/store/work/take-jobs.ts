import type PgBoss from 'pg-boss';
import { afterClockJump } from './after-clock-jump.js';
import type { QueueConnection } from './queue-connection.js';

export type Handle = (data: unknown, jobId: string) => Promise<unknown>;

export interface JobTaker {
  /** Takes jobs of this kind, one at a time, until stopped. */
  take(name: string, pollSeconds: number, handle: Handle): void;
  /** Takes no more; a job in hand may take so many seconds to end, then it is handed back for another worker. */
  stop(seconds: number): Promise<void>;
}

/** However long it is renewed: a job that hangs for good must not be held for good. */
const LONGEST_MS = 3_600_000;

/**
 * Jobs are taken on a short lease that is renewed while they live (`started_on` is what the queue's library counts
 * from), so that a job of a killed worker is soon another's, and a long one is not done twice.
 */
export function jobTaker(boss: PgBoss, connection: QueueConnection, leaseSeconds: number): JobTaker {
  const inHand = new Map<string, { readonly name: string; readonly until: number }>();
  const loops: Promise<void>[] = [];
  let stopping = false;
  const waiting = new Set<() => void>();
  let renewing = false;

  const renew = async () => {
    const now = Date.now();
    const ids = [...inHand].filter(([, job]) => now < job.until).map(([id]) => id);
    if (renewing) return;
    renewing = true;
    try {
      if (ids.length > 0)
        await connection.executeSql(
          `update pgboss.job set started_on = now() where id = any($1) and state = 'active'`,
          [ids],
        );
      await afterClockJump(connection);
    } catch {
      // The next beat tries again.
    }
    renewing = false;
  };
  const beat = setInterval(renew, (leaseSeconds * 1000) / 4);
  beat.unref();

  const pause = (seconds: number) =>
    new Promise<void>((resolve) => {
      const up = () => {
        clearTimeout(timer);
        waiting.delete(up);
        resolve();
      };
      const timer = setTimeout(up, seconds * 1000);
      waiting.add(up);
    });

  const loop = async (name: string, pollSeconds: number, handle: Handle) => {
    while (!stopping) {
      const [job] = await boss.fetch<object>(name);
      if (job === undefined) {
        await pause(pollSeconds);
        continue;
      }
      inHand.set(job.id, { name, until: Date.now() + LONGEST_MS });
      try {
        await handle(job.data, job.id);
        if (inHand.has(job.id)) await boss.complete(name, job.id);
      } catch (error) {
        if (inHand.has(job.id)) await boss.fail(name, job.id, { message: (error as Error).message });
      }
      inHand.delete(job.id);
    }
  };

  return {
    take(name, pollSeconds, handle) {
      loops.push(loop(name, pollSeconds, handle));
    },
    async stop(seconds) {
      stopping = true;
      for (const up of waiting) up();
      await Promise.race([Promise.all(loops), new Promise((r) => setTimeout(r, seconds * 1000).unref())]);
      clearInterval(beat);
      const left = [...inHand];
      inHand.clear();
      for (const [id, { name }] of left) await boss.fail(name, id, { message: 'handed back' });
    },
  };
}
