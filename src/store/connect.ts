import { Kysely, PostgresDialect } from 'kysely';
import pg from 'pg';
import { asDatabaseError, asUnavailable, isUnavailable } from './database-errors.js';
import { serverGoesLast } from './server-goes-last.js';
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
export function connectionPool(
  url: string,
  max: number,
  name: string,
  more: Pick<pg.PoolConfig, 'query_timeout'> = {},
): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    max,
    types: types as unknown as pg.CustomTypesConfig,
    connectionTimeoutMillis: 10_000,
    keepAlive: true,
    application_name: name,
    Client: HeardClient,
    ...more,
  } as pg.PoolConfig);
  pool.on('error', () => {});
  return pool;
}

/** Of a process, where nothing else is said. */
export const CONNECTIONS = 10;

/**
 * Connects lazily. `failed` hears of every failure before the caller does. An answer that does not come within
 * `answersWithinMs` (a network that is broken says nothing) is a lost database, and its connection is not used again.
 */
export function connect(
  url: string,
  max = CONNECTIONS,
  {
    failed = () => {},
    answersWithinMs,
    name = 'doorpost',
    goesLast = false,
  }: {
    failed?: (error: unknown) => void;
    answersWithinMs?: number;
    name?: string;
    goesLast?: boolean;
  } = {},
): Database {
  const pool = connectionPool(url, max, name, { query_timeout: answersWithinMs });
  if (goesLast) pool.on('connect', serverGoesLast);
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
          let lost: unknown = null;
          const ask = async (sql: string, values: unknown[]) => {
            // The end of a transaction whose connection is lost is not waited for as well.
            if (lost !== null) throw lost;
            return told(client.query(sql, values)).catch((error) => {
              if (isUnavailable(error)) lost = error;
              throw error;
            });
          };
          return {
            query: ask as never,
            release: (destroy?: boolean) => client.release(destroy || lost !== null),
          };
        },
        end: () => pool.end(),
      },
    }),
  });
}
