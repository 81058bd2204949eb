import { randomBytes } from 'node:crypto';
import { sql } from 'kysely';
import type PgBoss from 'pg-boss';
import { DoorpostError } from '../errors.js';
import { atomically } from './atomically.js';
import { connect, type Database } from './connect.js';
import type { Store } from './contract.js';
import { isMigrated, migrate } from './migrate.js';
import { openQueue, sendJob } from './queue.js';
import { auditRepository } from './repositories/audit.js';
import { caseloadRepository } from './repositories/caseload.js';
import { childrenRepository } from './repositories/children.js';
import { devicesRepository } from './repositories/devices.js';
import { eventsRepository } from './repositories/events.js';
import { familyLinksRepository } from './repositories/family-links.js';
import { fitLimitsRepository } from './repositories/fit-limits.js';
import { forecastsRepository } from './repositories/forecasts.js';
import { idempotencyRepository } from './repositories/idempotency.js';
import { importsRepository } from './repositories/imports.js';
import { jobRunsRepository } from './repositories/job-runs.js';
import { markersRepository } from './repositories/markers.js';
import { measurementsRepository } from './repositories/measurements.js';
import { recallRepository } from './repositories/recall.js';
import { settingsRepository } from './repositories/settings.js';
import { accessTokensRepository, sessionsRepository } from './repositories/sign-in-state.js';
import { usersRepository } from './repositories/users.js';
import { visitsRepository } from './repositories/visits.js';
import { workshopJobsRepository } from './repositories/workshop-jobs.js';

/** Connects and brings the tables up to date. `secretKey` overrides the one made and kept in the database. */
export async function openStore(
  url: string,
  options: {
    secretKey?: string | null;
    connections?: number;
    /** Keeps the clock and sweeps the queue too. */
    worker?: boolean;
    jobExpireSeconds?: number;
    onQueueError?: (error: Error) => void;
  } = {},
): Promise<Store> {
  const db = connect(url, options.connections);
  try {
    await sql`select 1`.execute(db);
  } catch (error) {
    await db.destroy();
    throw new DoorpostError(
      'database-unavailable',
      `The database does not answer (${(error as { code?: string }).code ?? 'no code'}): check DATABASE_URL`,
    );
  }
  await migrate(db);
  const queue = await openQueue(url, {
    worker: options.worker ?? false,
    expireSeconds: options.jobExpireSeconds ?? 600,
    onError: options.onQueueError ?? (() => {}),
  });
  return storeOn(db, queue, options.secretKey ?? null);
}

/** The repositories on a connection or on an open transaction. */
function storeOn(db: Database, queue: PgBoss, secretKey: string | null): Store {
  const secret = (name: string) =>
    secretKey === null ? keptSecret(db, name) : Promise.resolve(`${secretKey}/${name}`);
  return {
    children: childrenRepository(db),
    visits: visitsRepository(db),
    measurements: measurementsRepository(db),
    markers: markersRepository(db),
    devices: devicesRepository(db),
    events: eventsRepository(db),
    workshopJobs: workshopJobsRepository(db),
    forecasts: forecastsRepository(db),
    recall: recallRepository(db),
    familyLinks: familyLinksRepository(db, () => secret('family-links')),
    audit: auditRepository(db),
    users: usersRepository(db),
    settings: settingsRepository(db),
    fitLimits: fitLimitsRepository(db),
    jobRuns: jobRunsRepository(db),
    caseload: caseloadRepository(db),
    imports: importsRepository(db),
    sessions: sessionsRepository(db),
    accessTokens: accessTokensRepository(db),
    idempotency: idempotencyRepository(db),
    queue,
    enqueue: (name, data) => sendJob(queue, db, name, data),
    secret,
    async ready() {
      if (!(await isMigrated(db)))
        throw new DoorpostError('database-unavailable', 'The database does not answer or is not migrated');
    },
    async close() {
      await queue.stop({ graceful: true, timeout: 20_000 });
      await db.destroy();
    },
    transaction: (work) => atomically(db, (tx) => work(storeOn(tx, queue, secretKey))),
  };
}

async function keptSecret(db: Database, name: string): Promise<string> {
  await db
    .insertInto('secrets')
    .values({ name, value: randomBytes(48).toString('base64url') })
    .onConflict((c) => c.doNothing())
    .execute();
  const row = await db
    .selectFrom('secrets')
    .select('value')
    .where('name', '=', name)
    .executeTakeFirstOrThrow();
  return row.value;
}
