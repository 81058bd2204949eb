import { startOnePostgres } from './one-postgres.js';

/** One PostgreSQL for the whole run; the test files find it by its address in the environment. */
export default async function globalSetup(): Promise<() => Promise<void>> {
  const server = await startOnePostgres();
  process.env.TEST_POSTGRES_URL = server.url;
  return () => server.stop();
}
