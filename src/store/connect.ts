import { Kysely, PostgresDialect } from 'kysely';
import pg from 'pg';
import type { Tables } from './tables.js';

const DATE_OID = 1082;
/** A calendar date stays the text 'YYYY-MM-DD': a JavaScript Date would drag a time zone in. */
const types = {
  getTypeParser: (oid: number, format?: string) =>
    oid === DATE_OID ? (v: string) => v : pg.types.getTypeParser(oid, format as 'text'),
};

export type Database = Kysely<Tables>;

/** Connects lazily; a lost server shows as a failed query, never as a crash of the process. */
export function connect(url: string, max = 10): Database {
  const pool = new pg.Pool({
    connectionString: url,
    max,
    types: types as unknown as pg.CustomTypesConfig,
    connectionTimeoutMillis: 30_000,
    application_name: 'doorpost',
  });
  pool.on('error', () => {});
  return new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
}
