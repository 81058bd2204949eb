import type { FastifyInstance, InjectOptions } from 'fastify';
import { buildService } from '../../src/app.js';
import { assessor } from '../../src/service/assessor.js';
import { type Clock, dayIn } from '../../src/service/clock.js';
import { configuration } from '../../src/service/configuration.js';
import type { ServiceDeps } from '../../src/service/dependencies.js';
import { runWorker } from '../../src/service/jobs/run-worker.js';
import { jobStarter } from '../../src/service/jobs/start-jobs.js';
import { type Role, roles, type Store, systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { type TestDatabase, testDatabase } from '../database/test-database.js';
import { exampleCaseload } from '../store/example-children.js';

export const testToday = '2026-02-01';

export interface TestService {
  readonly app: FastifyInstance;
  readonly store: Store;
  readonly deps: ServiceDeps;
  readonly database: TestDatabase;
  readonly tokens: Record<Role, string>;
  readonly passwords: Record<Role, string>;
  /** Asks as a role by bearer token. */
  as(role: Role | null, options: InjectOptions): Promise<Awaited<ReturnType<FastifyInstance['inject']>>>;
  /** Waits until a job has ended. */
  jobEnded(id: string): Promise<string>;
  stop(): Promise<void>;
}

/** The whole service with real database, queue and worker, a caseload and an account per role. */
export async function testService(env: Record<string, string> = {}, children = 6): Promise<TestService> {
  const database = await testDatabase();
  const config = configuration({
    NODE_ENV: 'test',
    LOG_LEVEL: 'silent',
    RATE_LIMIT: '100000',
    SIGN_IN_RATE_LIMIT: '1000',
    TODAY: testToday,
    JOB_POLL_SECONDS: '0.5',
    ...env,
  });
  const store = await openStore(database.url, { worker: true });
  const clock: Clock = { now: () => new Date(), today: () => testToday, dayOf: dayIn(config.timeZone) };
  const assess = assessor(store, clock);
  const jobs = jobStarter(store, clock);
  const deps: ServiceDeps = {
    config,
    store,
    clock,
    jobs,
    assessor: assess,
    assess: assess.assess,
    demoSignIns: [],
  };
  const app = await buildService(deps);
  await app.ready();
  await runWorker(store, config, clock, assess, app.log);
  await store.caseload.write(exampleCaseload(children), 'test', testToday, systemActor);
  const tokens = {} as Record<Role, string>;
  const passwords = {} as Record<Role, string>;
  for (const role of roles) {
    passwords[role] = `a long password for ${role}`;
    const user = await store.users.create({ name: role, role, password: passwords[role] }, systemActor);
    tokens[role] = await store.accessTokens.create(user.id, new Date(Date.now() + 3_600_000));
  }
  return {
    app,
    store,
    deps,
    database,
    tokens,
    passwords,
    as: (role, options) =>
      app.inject({
        ...options,
        headers: { ...options.headers, ...(role ? { authorization: `Bearer ${tokens[role]}` } : {}) },
      }),
    async jobEnded(id) {
      for (;;) {
        const run = await store.jobRuns.get(id);
        if (run.status === 'done' || run.status === 'failed') return run.status;
        await new Promise((r) => setTimeout(r, 100));
      }
    },
    async stop() {
      await app.close();
      await store.close();
      await database.stop();
    },
  };
}
