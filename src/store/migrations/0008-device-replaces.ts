import { type Kysely, sql } from 'kysely';

/** A device says whose place it takes. */
const statements = `
update devices set data = data || '{"replaces": null}' where not data ? 'replaces';
`;

export async function up(db: Kysely<unknown>): Promise<void> {
  await sql.raw(statements).execute(db);
}
