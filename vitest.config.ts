import { defineConfig } from 'vitest/config';

const files = (...rooms: string[]) => rooms.map((room) => `tests/${room}/**/*.test.{ts,tsx}`);
// A chart's warning is provoked by a module of its own.
const ownProcess = [...files('operations'), 'tests/service/chart-warning.test.ts'];
const browser = files('browser');
const oneProcess = files('store', 'service');
const withDatabase = [...oneProcess, ...ownProcess, ...browser];
/** The fit of reference curves is the study's too. */
const study = [...files('study', 'known-values'), 'tests/statistics/fit-penalised-lms.test.ts'];
const all = ['tests/**/*.test.{ts,tsx}'];

/** `unit` needs neither database nor browser; `study` proves the models; `database` runs on one real PostgreSQL.
 * Unit tests share a process (they hold no state): references and models are then read once, not once a file;
 * so do those of the service and of the browser. */
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
        test: {
          name: 'service',
          isolate: false,
          include: oneProcess,
          exclude: ownProcess,
          globalSetup: 'tests/database/global-setup.ts',
        },
      },
      {
        extends: true,
        test: { name: 'database', include: ownProcess, globalSetup: 'tests/database/global-setup.ts' },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          isolate: false,
          include: browser,
          globalSetup: 'tests/database/global-setup.ts',
        },
      },
    ],
  },
});
