import { type OnePostgres, startOnePostgres } from './one-postgres.js';

/** Both groups of tests that need one are set up in this process. */
const shared = globalThis as { onePostgres?: { started: Promise<OnePostgres>; users: number } };

/** One PostgreSQL for the whole run; the test files find it by its address in the environment. */
export default async function globalSetup(): Promise<() => Promise<void>> {
  // Whoever started this run has one already.
  if (process.env.TEST_POSTGRES_URL && !shared.onePostgres) return async () => {};
  shared.onePostgres ??= { started: startOnePostgres(), users: 0 };
  const one = shared.onePostgres;
  one.users++;
  const server = await one.started;
  process.env.TEST_POSTGRES_URL = server.url;
  return async () => {
    if (--one.users === 0) await server.stop();
  };
}
