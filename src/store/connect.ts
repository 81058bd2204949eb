import { Kysely, PostgresDialect } from 'kysely';
import pg from 'pg';
import { asDatabaseError, asUnavailable } from './database-errors.js';
import type { Tables } from './tables.js';

const DATE_OID = 1082;
/** A calendar date stays the text 'YYYY-MM-DD': a JavaScript Date would drag a time zone in. */
const types = {
  getTypeParser: (oid: number, format?: string) =>
    oid === DATE_OID ? (v: string) => v : pg.types.getTypeParser(oid, format as 'text'),
};

export type Database = Kysely<Tables>;

/** A lost server shows as a failed query, also in the midst of a transaction, never as an event nobody hears. */
class HeardClient extends pg.Client {
  constructor(config?: pg.ClientConfig) {
    super(config);
    this.on('error', () => {});
  }
}

/** The one way to connections: the store, its queue and the backups all come through here. */
export function connectionPool(url: string, max: number, name: string): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    max,
    types: types as unknown as pg.CustomTypesConfig,
    connectionTimeoutMillis: 10_000,
    keepAlive: true,
    application_name: name,
    Client: HeardClient,
  } as pg.PoolConfig);
  pool.on('error', () => {});
  return pool;
}

/** Connects lazily. `failed` hears of every failure before the caller does. */
export function connect(url: string, max = 10, failed: (error: unknown) => void = () => {}): Database {
  const pool = connectionPool(url, max, 'doorpost');
  const told = async <T>(work: Promise<T>, named = asDatabaseError): Promise<T> => {
    try {
      return await work;
    } catch (cause) {
      const error = named(cause);
      failed(error);
      throw error;
    }
  };
  return new Kysely<Tables>({
    dialect: new PostgresDialect({
      pool: {
        connect: async () => {
          const client = await told(pool.connect(), asUnavailable);
          return {
            query: ((sql: string, values: unknown[]) => told(client.query(sql, values))) as never,
            release: (destroy?: boolean) => client.release(destroy),
          };
        },
        end: () => pool.end(),
      },
    }),
  });
}
