import { defineConfig } from 'vitest/config';

const files = (...rooms: string[]) => rooms.map((room) => `tests/${room}/**/*.test.{ts,tsx}`);
const withDatabase = files('store', 'service', 'operations', 'browser');
const study = files('study', 'known-values');
const all = ['tests/**/*.test.{ts,tsx}'];

/** `unit` needs neither database nor browser; `study` proves the models; `database` runs on one real PostgreSQL.
 * Unit tests share a process (they hold no state): references and models are then read once, not once a file. */
export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 120_000,
    pool: 'forks',
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: 'unit', isolate: false, include: all, exclude: [...withDatabase, ...study] } },
      { extends: true, test: { name: 'study', include: study } },
      {
        extends: true,
        test: { name: 'database', include: withDatabase, globalSetup: 'tests/database/global-setup.ts' },
      },
    ],
  },
});
