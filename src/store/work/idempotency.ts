import { DoorpostError } from '../../errors.js';
import type { Database } from '../connect.js';
import type { KeptAnswer } from '../shapes.js';

export const idempotencyRepository = (db: Database) => ({
  /**
   * Claims the key inside a transaction: null when it is new, else the answer given before. Another request with the
   * key waits here until the first has ended. Throws 'invalid-value' when it was used for another request.
   */
  async claim(userId: string, key: string, requestHash: string): Promise<KeptAnswer | null> {
    const claimed = await db
      .insertInto('idempotency_keys')
      .values({ user_id: userId, key, request_hash: requestHash })
      .onConflict((c) => c.doNothing())
      .returning('key')
      .executeTakeFirst();
    if (claimed) return null;
    const kept = await db
      .selectFrom('idempotency_keys')
      .selectAll()
      .where('user_id', '=', userId)
      .where('key', '=', key)
      .executeTakeFirstOrThrow();
    if (kept.request_hash !== requestHash)
      throw new DoorpostError('invalid-value', 'This Idempotency-Key was used for a different request', {
        field: 'Idempotency-Key',
        accepted: 'a new key for a new request',
      });
    return { status: kept.status ?? 200, headers: kept.headers ?? {}, body: kept.body ?? '' };
  },

  /** The answer kept under a key; null where there is none yet. */
  async answer(userId: string, key: string): Promise<KeptAnswer | null> {
    const row = await db
      .selectFrom('idempotency_keys')
      .select(['status', 'headers', 'body'])
      .where('user_id', '=', userId)
      .where('key', '=', key)
      .executeTakeFirst();
    return row?.status ? { status: row.status, headers: row.headers ?? {}, body: row.body ?? '' } : null;
  },

  async save(userId: string, key: string, answer: KeptAnswer) {
    await db
      .updateTable('idempotency_keys')
      .set({ status: answer.status, headers: JSON.stringify(answer.headers), body: answer.body })
      .where('user_id', '=', userId)
      .where('key', '=', key)
      .execute();
  },

  async sweep(before: Date) {
    await db.deleteFrom('idempotency_keys').where('created_at', '<', before).execute();
  },
});
