import { CompiledQuery } from 'kysely';
import PgBoss from 'pg-boss';
import type { Database } from '../connect.js';
import { type JobData, type JobName, jobNames, type WorkQueue } from '../contract/work.js';
import { queueConnection } from './queue-connection.js';
import { type Handle, jobTaker } from './take-jobs.js';

/** A job may meet many dying workers before it meets a healthy one; a retry costs a second. */
const RETRIES = 60;

/**
 * The queue in the same database. A job whose worker has been silent for `leaseSeconds` is given to another.
 * `worker` also keeps the clock and sweeps up; without it jobs can only be sent.
 */
export async function openQueue(
  url: string,
  options: { worker: boolean; leaseSeconds: number; onError: (error: Error) => void },
): Promise<Queue> {
  const connection = queueConnection(url, options.worker ? 4 : 2);
  const boss = new PgBoss({
    db: connection as PgBoss.Db,
    supervise: options.worker,
    schedule: options.worker,
    maintenanceIntervalSeconds: Math.ceil(options.leaseSeconds / 4),
    cronMonitorIntervalSeconds: 30,
  });
  boss.on('error', options.onError);
  try {
    await boss.start();
    for (const name of jobNames) {
      const queue = {
        name,
        retryLimit: RETRIES,
        retryDelay: 1,
        expireInSeconds: options.leaseSeconds,
        ...(name === 'gave-up' ? {} : { deadLetter: 'gave-up' }),
      };
      await boss.createQueue(name, queue);
      await boss.updateQueue(name, queue);
    }
  } catch (error) {
    await boss.stop({ graceful: false }).catch(() => {});
    await connection.close();
    throw error;
  }
  if (options.worker) connection.bePatient();
  const taker = jobTaker(boss, connection, options.leaseSeconds);
  return {
    boss,
    work: {
      take: (name, pollSeconds, handle) => taker.take(name, pollSeconds, handle as Handle),
      schedule: (name, cron, timeZone) => boss.schedule(name, cron, {}, { tz: timeZone }),
      waiting: () =>
        Promise.all(jobNames.map(async (name) => ({ name, jobs: await boss.getQueueSize(name) }))),
    },
    async close(seconds) {
      const stopped = taker
        .stop(seconds)
        .then(() => boss.stop({ graceful: false }))
        .catch(() => {});
      // A database that has gone is not waited for.
      await Promise.race([stopped, new Promise((r) => setTimeout(r, (seconds + 1) * 1000).unref())]);
      await connection.close();
    },
  };
}

export interface Queue {
  readonly boss: PgBoss;
  readonly work: WorkQueue;
  close(seconds: number): Promise<void>;
}

/** Sends in the transaction that `db` is: the job exists if and only if the rest does. */
export async function sendJob<N extends JobName>(
  boss: PgBoss,
  db: Database,
  name: N,
  data: JobData[N],
): Promise<void> {
  await boss.send(name, data, {
    db: {
      executeSql: async (text, values) => ({
        rows: [...(await db.executeQuery(CompiledQuery.raw(text, values))).rows],
      }),
    },
  });
}
