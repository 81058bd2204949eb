/** Children by the ten thousand from the database to the stored forecast, in one process: what it holds meanwhile. */
import { assessor } from '../../src/service/assessor.js';
import { clock } from '../../src/service/clock.js';
import { forecastPart } from '../../src/service/jobs/forecast-job.js';
import { systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { testDatabase } from '../database/test-database.js';
import { exampleCaseload } from '../store/example-children.js';
import { note } from './measure.js';

const TODAY = '2026-02-01';
const WRITTEN = 500;
/** Children a part, as a night has them. */
const PART = 20;
/** How often memory is looked at. */
const STEPS = 4;

export async function benchStream(children: number): Promise<void> {
  const database = await testDatabase();
  const store = await openStore(database.url);
  for (let k = 0; k < children; k += WRITTEN)
    await store.caseload.write(
      exampleCaseload(Math.min(WRITTEN, children - k), `c${k}-`),
      'bench',
      TODAY,
      systemActor,
    );
  const time = clock({ today: TODAY, timeZone: 'UTC' });
  const making = assessor(store, time, (error) => {
    throw error;
  });
  const ids = await store.caseload.ids();
  const runId = (await store.jobRuns.begin('forecasts', new Date()))!;
  await store.jobRuns.setTotal(runId, ids.length);
  const limitsVersion = await store.fitLimits.version();
  const begun = process.cpuUsage();
  const held: number[] = [];
  for (let part = 0; part * PART < ids.length; part++) {
    const own = ids.slice(part * PART, (part + 1) * PART);
    await forecastPart(store, time, making, { runId, part, ids: own, month: null, limitsVersion });
    const done = part * PART + own.length;
    if (done >= ((held.length + 1) * ids.length) / STEPS)
      held.push(Math.round(process.memoryUsage().rss / 2 ** 20));
  }
  const { user, system } = process.cpuUsage(begun);
  const { status } = await store.jobRuns.get(runId);
  if (status !== 'done') throw new Error(`the run is ${status}`);
  note(
    `memory after ${ids.length} children from the database, against after a quarter`,
    held[STEPS - 1] - held[0],
    'MB',
    `${held.join(', ')} MB; ${((user + system) / 1000 / ids.length).toFixed(1)} ms CPU a child`,
  );
  await store.close(1);
  await database.stop();
}
