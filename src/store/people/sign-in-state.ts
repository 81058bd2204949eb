import { createHash, randomBytes } from 'node:crypto';
import type { Database } from '../connect.js';
import { userOf } from './users.js';

/** Only hashes are kept: who reads the database cannot take over a session. */
const hashOf = (secret: string) => createHash('sha256').update(secret).digest('hex');

export const sessionsRepository = (db: Database) => ({
  async get(id: string) {
    const row = await db
      .selectFrom('sessions')
      .select(['data', 'expires_at'])
      .where('id_hash', '=', hashOf(id))
      .executeTakeFirst();
    return row && row.expires_at > new Date() ? row.data : null;
  },
  async set(id: string, data: Record<string, unknown>, expires_at: Date) {
    const row = { data: JSON.stringify(data), expires_at };
    await db
      .insertInto('sessions')
      .values({ id_hash: hashOf(id), ...row })
      .onConflict((c) => c.column('id_hash').doUpdateSet(row))
      .execute();
  },
  async remove(id: string) {
    await db.deleteFrom('sessions').where('id_hash', '=', hashOf(id)).execute();
  },
  async sweep(now: Date) {
    await db.deleteFrom('sessions').where('expires_at', '<', now).execute();
    await db.deleteFrom('access_tokens').where('expires_at', '<', now).execute();
  },
});

export const accessTokensRepository = (db: Database) => ({
  /** A new bearer token, shown once. */
  async create(user_id: string, expires_at: Date) {
    const token = randomBytes(32).toString('base64url');
    await db
      .insertInto('access_tokens')
      .values({ token_hash: hashOf(token), user_id, expires_at })
      .execute();
    return token;
  },
  async userOf(token: string, now: Date) {
    const row = await db
      .selectFrom('access_tokens as t')
      .innerJoin('users as u', 'u.id', 't.user_id')
      .selectAll('u')
      .where('t.token_hash', '=', hashOf(token))
      .where('t.expires_at', '>', now)
      .where('u.disabled', '=', false)
      .executeTakeFirst();
    return row ? userOf(row) : null;
  },
  async revoke(token: string) {
    await db.deleteFrom('access_tokens').where('token_hash', '=', hashOf(token)).execute();
  },
});
