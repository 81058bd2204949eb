import { atomically } from '../atomically.js';
import type { Database } from '../connect.js';

/** Wrong passwords before an account has to wait; common practice, no source. */
const FREE_TRIES = 5;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = 15 * 60_000;
/** After a day without a try the count begins anew. */
const FORGET_MS = 24 * 3_600_000;

const waitMs = (tries: number): number =>
  tries < FREE_TRIES ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(20, tries - FREE_TRIES));

/**
 * Counts tries to sign in by the name that was typed, known or not, so that guessing from many addresses is slow and a
 * wait says nothing of whether there is such a user. A try counts before its password is looked at: a hundred at once
 * are not a hundred guesses.
 */
export const signInTriesRepository = (db: Database) => ({
  /** Counts a try; the time before which none is taken, null when this one may go on. */
  begin: (account: string, now: Date) =>
    atomically(db, async (tx) => {
      await tx
        .insertInto('sign_in_tries')
        .values({ account, tries: 0, locked_until: null, last_at: now })
        .onConflict((c) => c.doNothing())
        .execute();
      const row = await tx
        .selectFrom('sign_in_tries')
        .selectAll()
        .where('account', '=', account)
        .forUpdate()
        .executeTakeFirstOrThrow();
      if (row.locked_until && row.locked_until > now) return row.locked_until;
      const forgotten = now.getTime() - row.last_at.getTime() > FORGET_MS;
      const tries = forgotten ? 1 : row.tries + 1;
      const wait = waitMs(tries);
      await tx
        .updateTable('sign_in_tries')
        .set({ tries, last_at: now, locked_until: wait === 0 ? null : new Date(now.getTime() + wait) })
        .where('account', '=', account)
        .execute();
      return null;
    }),
  /** After a sign-in that succeeded. */
  async clear(account: string) {
    await db.deleteFrom('sign_in_tries').where('account', '=', account).execute();
  },
  async sweep(now: Date) {
    await db
      .deleteFrom('sign_in_tries')
      .where('last_at', '<', new Date(now.getTime() - FORGET_MS))
      .execute();
  },
});
