import pino from 'pino';
import { compileForMany } from '../launch/compile-for-many.js';
import { solveAside } from '../recall/level/solve-aside.js';
import { assessor } from '../service/assessor.js';
import { clock } from '../service/clock.js';
import { configuration } from '../service/configuration.js';
import { runWorker } from '../service/jobs/run-worker.js';
import { loggedError } from '../service/log.js';
import { tensorBackend } from '../statistics/tensor/tensor-backend.js';
import { openStore } from '../store/open-store.js';
import { findDatabase } from './open-database.js';
import { stopRequest } from './stop-request.js';

/** A job in hand may take so long to end when the worker is asked to stop; then it is handed back. */
const GRACE_SECONDS = 3;

/** One more worker for the service of the same database. */
export async function worker(): Promise<void> {
  compileForMany();
  const stop = stopRequest();
  const config = configuration(process.env);
  const log = pino({ level: config.logLevel });
  const store = await openStore(await findDatabase(config), {
    secretKey: config.secretKey,
    connections: 4,
    worker: true,
    jobLeaseSeconds: config.jobLeaseSeconds,
    onQueueError: (error) => log.warn({ error: error.name }, 'queue'),
  });
  const time = clock(config);
  // It hears a request to stop, and tells how far it is, while it plans.
  solveAside();
  await runWorker(
    store,
    config,
    time,
    assessor(store, time, (error) =>
      log.error({ frames: loggedError(error as Error).frames }, 'a child could not be forecast'),
    ),
    log,
  );
  log.info({ tensorBackend }, 'worker ready');
  await stop.asked;
  await Promise.race([
    store.close(GRACE_SECONDS),
    new Promise((r) => setTimeout(r, (GRACE_SECONDS + 2) * 1000)),
  ]);
}
