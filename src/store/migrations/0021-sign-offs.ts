import { type Kysely, sql } from 'kysely';

/** Which shipped defaults a practitioner of the clinic has read and signed. Append-only: the newest row of a subject counts. */
const statements = `
create table sign_offs (
  seq bigserial primary key,
  subject text not null,
  content text not null,
  signed_name text not null,
  profession text not null,
  signed_by text not null,
  signed_at timestamptz not null default now()
);
create index sign_offs_by_subject on sign_offs (subject, seq);
create trigger append_only before update or delete on sign_offs
  for each row execute function append_only();
create trigger no_truncate before truncate on sign_offs
  for each statement execute function append_only();
`;

export async function up(db: Kysely<unknown>): Promise<void> {
  await sql.raw(statements).execute(db);
}
