import { buildService } from '../app.js';
import { drawChartsAside } from '../charts/draw-aside.js';
import { listen } from '../server.js';
import { assessor } from '../service/assessor.js';
import { clock } from '../service/clock.js';
import { configuration } from '../service/configuration.js';
import { openDemo } from '../service/demo.js';
import type { ServiceDeps } from '../service/dependencies.js';
import { jobStarter } from '../service/jobs/start-jobs.js';
import { tensorBackend } from '../statistics/tensor/tensor-backend.js';
import { openStore } from '../store/open-store.js';
import { closeService, type OpenParts } from './close-service.js';
import { ownDatabase } from './open-database.js';
import { startWorkers } from './start-workers.js';
import { StoppedWhileStarting, type StopRequest, stopRequest } from './stop-request.js';
import { terminal } from './terminal.js';
import { keepCounted, warmUp } from './warm-up.js';

/** The service: database, web server and workers, until it is asked to stop. Nothing is left of a start that failed. */
export async function serve(): Promise<void> {
  const stop = stopRequest();
  const open: OpenParts = {};
  // The time to stop counts from the request, also when a long step of the start has to end first.
  void stop.asked.then(() => closeService(open));
  try {
    await start(open, stop);
    await stop.asked;
  } catch (error) {
    if (!(error instanceof StoppedWhileStarting)) throw error;
  } finally {
    await closeService(open);
  }
}

async function start(open: OpenParts, stop: StopRequest): Promise<void> {
  const config = configuration(process.env);
  const database = await ownDatabase(config);
  open.database = database;
  stop.check();
  const store = await openStore(database.url, {
    secretKey: config.secretKey,
    jobLeaseSeconds: config.jobLeaseSeconds,
    trouble: database.trouble,
  });
  open.store = store;
  stop.check();
  const time = clock(config);
  const assess = assessor(store, time);
  const jobs = jobStarter(store, time);
  const demoSignIns = config.demo ? await openDemo(store, config, time, jobs) : [];
  stop.check();
  const deps = { config, store, clock: time, jobs, assessor: assess, assess: assess.assess, demoSignIns };
  const endDrawing = drawChartsAside();
  // Whoever tries the demo is alone with it.
  if (!config.demo) await warmUp(deps);
  stop.check();
  open.app = await buildService(deps);
  open.app.addHook('onClose', endDrawing);
  const stopCounting = keepCounted(deps);
  open.app.addHook('onClose', async () => stopCounting());
  const address = await listen(open.app, config);
  stop.check();
  open.workers = startWorkers(config.workers, database.url);
  const nobody = config.oidc === null && (await store.users.list()).length === 0;
  sayHello(`doorpost is at ${address}   (data: ${database.where})`, demoSignIns, nobody);
}

function sayHello(where: string, demoSignIns: ServiceDeps['demoSignIns'], nobody: boolean): void {
  terminal.out(where);
  terminal.out(`Wide sums run on TensorFlow.js: ${tensorBackend}`);
  if (demoSignIns.length > 0) {
    terminal.out('\nDemo clinic, everybody invented. Sign in as:');
    for (const { name, password, role } of demoSignIns)
      terminal.out(`  ${role.padEnd(14)} ${name.padEnd(14)} ${password}`);
    terminal.out('Forecasts are being computed; the pages show how far they are.');
  } else if (nobody)
    terminal.out('Nobody can sign in yet: npx doorpost user add --name NAME --role administrator');
}
