import type pg from 'pg';
import { connectionPool } from '../connect.js';
import { asDatabaseError, isUnavailable } from '../database-errors.js';

const FIRST_WAIT_MS = 200;
const LONGEST_WAIT_MS = 5000;

export interface QueueConnection {
  executeSql(text: string, values: unknown[]): Promise<{ rows: unknown[] }>;
  /** From now on a lost database is waited for instead of being an error. */
  bePatient(): void;
  close(): Promise<void>;
}

/**
 * The queue's library says that a job is done without waiting for an answer, so a failure there would end the process
 * and leave the job as if still in hand. A worker therefore waits until the database is back and says it then.
 */
export function queueConnection(url: string, max: number): QueueConnection {
  const pool: pg.Pool = connectionPool(url, max, 'doorpost-queue');
  let patient = false;
  let closed = false;
  return {
    async executeSql(text, values) {
      for (let wait = FIRST_WAIT_MS; !closed; wait = Math.min(2 * wait, LONGEST_WAIT_MS)) {
        try {
          return await pool.query(text, values);
        } catch (cause) {
          const error = asDatabaseError(cause);
          if (!patient || !isUnavailable(error)) throw error;
        }
        await new Promise((r) => setTimeout(r, wait));
      }
      // Nobody is left to hear an answer, and an error would end the process before it has tidied up.
      return new Promise(() => {});
    },
    bePatient: () => {
      patient = true;
    },
    async close() {
      closed = true;
      await pool.end();
    },
  };
}
