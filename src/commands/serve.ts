import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { buildService } from '../app.js';
import { listen } from '../server.js';
import { assessor } from '../service/assessor.js';
import { clock } from '../service/clock.js';
import { type Configuration, configuration } from '../service/configuration.js';
import { openDemo } from '../service/demo.js';
import { jobStarter } from '../service/jobs/start-jobs.js';
import { openStore } from '../store/open-store.js';
import { openDatabase } from './open-database.js';
import { terminal } from './terminal.js';
import { untilStopped } from './until-stopped.js';

/** The service: database, web server and workers, until it is asked to stop. */
export async function serve(): Promise<void> {
  const config = configuration(process.env);
  const database = await openDatabase(config);
  const stopped = untilStopped();
  const store = await openStore(database.url, {
    secretKey: config.secretKey,
    jobExpireSeconds: config.jobExpireSeconds,
  });
  const time = clock(config);
  const assess = assessor(store, time);
  const jobs = jobStarter(store, time);
  const demoSignIns = config.demo ? await openDemo(store, config, time, jobs) : [];
  const app = await buildService({
    config,
    store,
    clock: time,
    jobs,
    assessor: assess,
    assess: assess.assess,
    demoSignIns,
  });
  const address = await listen(app, config);
  const workers = startWorkers(config, database.url);
  terminal.out(`doorpost is at ${address}   (data: ${database.where})`);
  if (demoSignIns.length > 0) {
    terminal.out('\nDemo clinic, everybody invented. Sign in as:');
    for (const { name, password, role } of demoSignIns)
      terminal.out(`  ${role.padEnd(14)} ${name.padEnd(14)} ${password}`);
    terminal.out('Forecasts are being computed; the pages show how far they are.');
  } else if (!(await hasUsers()))
    terminal.out('Nobody can sign in yet: doorpost user add --name NAME --role administrator');

  await stopped;
  workers.stop();
  await app.close();
  await workers.ended;
  await store.close();
  await database.stop();

  async function hasUsers(): Promise<boolean> {
    return config.oidc !== null || (await store.users.list()).length > 0;
  }
}

/** Workers beside the web server, so that heavy sums never hold up a page; one that dies is started again. */
function startWorkers(config: Configuration, url: string): { stop(): void; ended: Promise<unknown> } {
  let stopping = false;
  const running = new Set<ChildProcess>();
  const ends: Promise<void>[] = [];
  const start = () => {
    const child = fork(fileURLToPath(new URL('../doorpost.mjs', import.meta.url)), ['worker'], {
      env: { ...process.env, DATABASE_URL: url },
    });
    running.add(child);
    ends.push(
      new Promise((resolve) =>
        child.on('exit', () => {
          running.delete(child);
          if (!stopping) setTimeout(() => stopping || start(), 1000);
          resolve();
        }),
      ),
    );
  };
  for (let i = 0; i < config.workers; i++) start();
  return {
    stop: () => {
      stopping = true;
      for (const child of running) child.kill('SIGTERM');
    },
    get ended() {
      return Promise.all(ends);
    },
  };
}
