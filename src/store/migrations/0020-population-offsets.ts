import { type Kysely, sql } from 'kysely';

/** How a clinic's own children stand off a model's curves, learned once a month; sums over many children, nobody's readings. */
const statements = `
create table population_offsets (
  seq bigserial primary key,
  learned_on date not null,
  model_name text not null,
  model_version text not null,
  children integer not null,
  offsets jsonb not null,
  unique (learned_on, model_name, model_version)
);
`;

export async function up(db: Kysely<unknown>): Promise<void> {
  await sql.raw(statements).execute(db);
}
