import { type Kysely, sql } from 'kysely';

/** The day a recalled child is booked for, kept with the entry and with every change of its state; who sees a child. */
const statements = `
alter table recall_entries add column appointment date;
alter table recall_state_changes add column from_appointment date;
update children set data = data || '{"clinician": ""}' where not data ? 'clinician';
`;

export async function up(db: Kysely<unknown>): Promise<void> {
  await sql.raw(statements).execute(db);
}
