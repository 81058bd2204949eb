import { CompiledQuery } from 'kysely';
import PgBoss from 'pg-boss';
import type { Database } from '../connect.js';
import { queueConnection } from './queue-connection.js';

/** Work that any worker process on any host may take up. */
export interface JobData {
  /** Splits the caseload into parts. */
  readonly 'forecast-run': { readonly runId: string };
  /** One part of it; doing it again does nothing. */
  readonly 'forecast-part': {
    readonly runId: string;
    readonly part: number;
    readonly ids: readonly string[];
    /** The month whose recall list is made once every part is done, '' for the weeks ahead of today; null for forecasts alone. */
    readonly month: string | null;
    /** Version of the clinic's fit limits when the run began. */
    readonly limitsVersion: number;
  };
  /** Forecasts in parts, then the list. */
  readonly 'recall-run': { readonly runId: string; readonly month: string };
  readonly 'recall-list': { readonly runId: string; readonly month: string };
  readonly import: { readonly runId: string; readonly importId: string; readonly actor: string };
  /** On the clock. */
  readonly nightly: Record<string, never>;
  readonly morning: Record<string, never>;
  /** Where a job ends up that failed for good. */
  readonly 'gave-up': { readonly runId?: string };
}
export type JobName = keyof JobData;

export const jobNames: readonly JobName[] = [
  'gave-up',
  'forecast-run',
  'forecast-part',
  'recall-run',
  'recall-list',
  'import',
  'nightly',
  'morning',
];

/** A job may meet many dying workers before it meets a healthy one; a retry costs a second. */
const RETRIES = 60;

/**
 * The queue in the same database. A job whose worker died is given to another once `expireSeconds` have passed.
 * `worker` also keeps the clock and sweeps up; without it jobs can only be sent.
 */
export async function openQueue(
  url: string,
  options: { worker: boolean; expireSeconds: number; onError: (error: Error) => void },
): Promise<Queue> {
  const connection = queueConnection(url, options.worker ? 4 : 2);
  const boss = new PgBoss({
    db: connection as PgBoss.Db,
    supervise: options.worker,
    schedule: options.worker,
    maintenanceIntervalSeconds: Math.max(1, Math.min(60, Math.ceil(options.expireSeconds / 2))),
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
        expireInSeconds: options.expireSeconds,
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
  return {
    boss,
    async close(seconds) {
      // Jobs in hand may end; those that have not are handed back for another worker. A database that has gone is not waited for.
      const stopped = boss.stop({ graceful: true, timeout: seconds * 1000 }).catch(() => {});
      await Promise.race([stopped, new Promise((r) => setTimeout(r, (seconds + 1) * 1000).unref())]);
      await connection.close();
    },
  };
}

export interface Queue {
  readonly boss: PgBoss;
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
