import { randomBytes } from 'node:crypto';
import { sql } from 'kysely';
import type PgBoss from 'pg-boss';
import { DoorpostError } from '../errors.js';
import { atomically } from './atomically.js';
import { connect, type Database } from './connect.js';
import type { Store } from './contract.js';
import { isMigrated, migrate } from './migrate.js';
import { auditRepository } from './people/audit.js';
import { familyLinksRepository } from './people/family-links.js';
import { settingsRepository } from './people/settings.js';
import { accessTokensRepository, sessionsRepository } from './people/sign-in-state.js';
import { signInTriesRepository } from './people/sign-in-tries.js';
import { usersRepository } from './people/users.js';
import { caseloadRepository } from './records/caseload.js';
import { childrenRepository } from './records/children.js';
import { devicesRepository } from './records/devices.js';
import { eventsRepository } from './records/events.js';
import { fitLimitsRepository } from './records/fit-limits.js';
import { markersRepository } from './records/markers.js';
import { measurementsRepository } from './records/measurements.js';
import { skinChecksRepository } from './records/skin-checks.js';
import { visitsRepository } from './records/visits.js';
import { workshopJobsRepository } from './records/workshop-jobs.js';
import { forecastsRepository } from './work/forecasts.js';
import { idempotencyRepository } from './work/idempotency.js';
import { importsRepository } from './work/imports.js';
import { jobRunsRepository } from './work/job-runs.js';
import { openQueue, sendJob } from './work/queue.js';
import { recallRepository } from './work/recall.js';

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
    skinChecks: skinChecksRepository(db),
    devices: devicesRepository(db),
    events: eventsRepository(db),
    workshopJobs: workshopJobsRepository(db),
    forecasts: forecastsRepository(db),
    recall: recallRepository(db),
    familyLinks: familyLinksRepository(db, () => secret('family-links')),
    audit: auditRepository(db),
    users: usersRepository(db),
    signInTries: signInTriesRepository(db),
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
