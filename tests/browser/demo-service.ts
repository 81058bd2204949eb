/**
 * The real service on a real PostgreSQL with the invented demo clinic, for the browser tests and the README's tour:
 * fixed today, seeded people, a recall list made by the worker, one account per role.
 */
import type { AddressInfo } from 'node:net';
import { buildService } from '../../src/app.js';
import { demoClinic, demoSlotsPerWeek } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { addDaysIso } from '../../src/records/dates.js';
import { type Assessor, assessor } from '../../src/service/assessor.js';
import { clock as clockOf } from '../../src/service/clock.js';
import { configuration } from '../../src/service/configuration.js';
import { runWorker } from '../../src/service/jobs/run-worker.js';
import { jobStarter } from '../../src/service/jobs/start-jobs.js';
import { type Role, type Store, systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';

export const TODAY = '2026-06-15';
export const people: readonly { name: string; password: string; role: Role }[] = [
  { name: 'clinician', password: 'marks on the doorpost', role: 'clinician' },
  { name: 'scheduler', password: 'marks on the doorpost', role: 'scheduler' },
  { name: 'administrator', password: 'marks on the doorpost', role: 'administrator' },
  { name: 'auditor', password: 'marks on the doorpost', role: 'auditor' },
];

export interface DemoService {
  readonly url: string;
  readonly store: Store;
  close(): Promise<void>;
}

export async function startDemoService(
  databaseUrl: string,
  options: { children?: number; port?: number; lookBack?: boolean } = {},
): Promise<DemoService> {
  const config = configuration({
    TODAY,
    NODE_ENV: 'test',
    LOG_LEVEL: process.env.LOG_LEVEL ?? 'silent',
    RATE_LIMIT: '100000',
    SIGN_IN_RATE_LIMIT: '1000',
    JOB_POLL_SECONDS: '0.5',
  });
  const store = await openStore(databaseUrl, { worker: true });
  const clock = clockOf(config);
  const assess = assessor(store, clock);
  const jobs = jobStarter(store, clock);
  const children = options.children ?? 60;
  const { caseload } = demoClinic({ children, seed: 7, today: TODAY });
  await store.caseload.write(caseload, 'demo', TODAY, systemActor);
  await store.settings.change(
    {
      clinicName: 'Doorpost demo clinic',
      contact: 'the clinic desk, extension 12',
      castingSlotsPerWeek: demoSlotsPerWeek(children),
    },
    null,
    systemActor,
  );
  const there = new Set((await store.users.list()).map((u) => u.name));
  for (const p of people)
    if (!there.has(p.name)) await store.users.create({ ...p, displayName: `Demo ${p.role}` }, systemActor);
  if (options.lookBack) await keepPastForecasts(store, assess);
  await runWorker(store, config, clock, assess, { info: () => {}, error: console.error });
  const runId = await jobs.startRecallRun(null);
  while (!['done', 'failed'].includes((await store.jobRuns.get(runId)).status))
    await new Promise((wait) => setTimeout(wait, 100));
  const app = await buildService({
    config,
    store,
    clock,
    jobs,
    assessor: assess,
    assess: assess.assess,
    demoSignIns: people,
  });
  await app.listen({ host: '127.0.0.1', port: options.port ?? 0 });
  const { port } = app.server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}`,
    store,
    close: async () => {
      await app.close();
      await store.close();
    },
  };
}

/** Forecasts as they would have been made a fortnight after each fitting and after each adjustment: a lead's history. */
async function keepPastForecasts(store: Store, assess: Assessor): Promise<void> {
  const using = (await assess.current()).context;
  for (const record of await store.caseload.records(await store.caseload.ids('any'))) {
    const judged = new Set(record.events.filter((e) => e.verdict !== null).map((e) => e.deviceId));
    for (const device of record.devices) {
      if (!device.fittedDate || !judged.has(device.id)) continue;
      const adjusted = record.events.filter((e) => e.deviceId === device.id && e.kind === 'adjusted');
      for (const today of new Set([addDaysIso(device.fittedDate, 14), ...adjusted.map((e) => e.date)])) {
        const then = { ...record, devices: [{ ...device, status: 'worn' as const }] };
        const { forecasts } = assessChild(then, { ...using, today, draws: 400 });
        await store.forecasts.save({
          childId: record.child.id,
          today,
          forecasts,
          flags: [],
          suggestions: [],
          inputsHash: `looked back on ${today}`,
          modelName: using.model.name,
          modelVersion: using.model.version,
          seed: using.seed,
          computedAt: `${today}T12:00:00Z`,
        });
      }
    }
  }
}
