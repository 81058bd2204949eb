import { type Kysely, sql } from 'kysely';

/** A password that somebody else has set is known to two people: it is changed before anything else is done. */
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`alter table users add column password_by_other boolean not null default false`.execute(db);
}
