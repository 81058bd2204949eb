import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const files = (...rooms: string[]) => rooms.map((room) => `tests/${room}/**/*.test.{ts,tsx}`);
const withDatabase = files('browser', 'operations', 'service', 'store');
/** The fit of reference curves is the study's too. */
const study = [...files('study', 'known-values'), 'tests/statistics/fit-penalised-lms.test.ts'];
const all = ['tests/**/*.test.{ts,tsx}'];

/** What waits longest first. A process goes on to the next file only where that is of the same project: they stand together. */
const projects = ['service', 'study', 'unit'];
class ProjectAfterProject extends BaseSequencer {
  override async sort(given: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ project }: TestSpecification) => projects.indexOf(project.name);
    return (await super.sort(given)).toSorted((a, b) => place(a) - place(b));
  }
}

/** `unit` needs neither database nor browser; `study` proves the models; `service` runs on one real PostgreSQL.
 * The files of a project share processes (they hold no state): code, references and models are then read once, not once a file. */
export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 120_000,
    pool: 'forks',
    maxWorkers: 2,
    isolate: false,
    sequence: { sequencer: ProjectAfterProject },
    projects: [
      { extends: true, test: { name: 'unit', include: all, exclude: [...withDatabase, ...study] } },
      { extends: true, test: { name: 'study', include: study } },
      {
        extends: true,
        test: { name: 'service', include: withDatabase, globalSetup: 'tests/database/global-setup.ts' },
      },
    ],
  },
});
