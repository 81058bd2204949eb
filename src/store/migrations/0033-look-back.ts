import { type Kysely, sql } from 'kysely';

/** A forecast can be made for a day long past, from the record as it stood then: the day it was really made is kept. */
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`alter table forecast_history add column made_on date`.execute(db);
}
