import pino from 'pino';
import { assessor } from '../service/assessor.js';
import { clock } from '../service/clock.js';
import { configuration } from '../service/configuration.js';
import { runWorker } from '../service/jobs/run-worker.js';
import { openStore } from '../store/open-store.js';
import { findDatabase } from './open-database.js';
import { untilStopped } from './until-stopped.js';

/** One more worker for the service of the same database; stops after the job in hand. */
export async function worker(): Promise<void> {
  const config = configuration(process.env);
  const log = pino({ level: config.logLevel });
  const store = await openStore(await findDatabase(config), {
    secretKey: config.secretKey,
    connections: 4,
    worker: true,
    jobExpireSeconds: config.jobExpireSeconds,
    onQueueError: (error) => log.warn({ error: error.name }, 'queue'),
  });
  const time = clock(config);
  await runWorker(store, config, time, assessor(store, time), log);
  log.info('worker ready');
  await untilStopped();
  await store.close();
}
