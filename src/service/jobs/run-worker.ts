import type { FastifyBaseLogger } from 'fastify';
import { loadGrowthModel } from '../../growth/population/model.js';
import type { JobData, JobName, Store } from '../../store/contract.js';
import type { Assessor } from '../assessor.js';
import type { Clock } from '../clock.js';
import type { Configuration } from '../configuration.js';
import { loggedError } from '../log.js';
import { forecastPart, splitForecastRun } from './forecast-job.js';
import { importJob } from './import-job.js';
import { recallList } from './recall-job.js';
import { jobStarter } from './start-jobs.js';

const DAY_MS = 86_400_000;
/** Answers to repeated requests are kept this long. */
const KEEP_ANSWERS_DAYS = 7;
/** A dry run that nobody takes in holds a clinic's files a second time. */
export const KEEP_DRY_RUNS_DAYS = 14;
/** The list of a working day is made anew at this hour. */
export const MORNING_HOUR = 4;

/**
 * Takes jobs from the queue until the store is closed, one at a time of each kind. Any number of such processes on any
 * number of hosts share the work.
 */
export async function runWorker(
  store: Store,
  config: Configuration,
  clock: Clock,
  assessor: Assessor,
  log: Pick<FastifyBaseLogger, 'info' | 'error'>,
): Promise<void> {
  // Read before work is taken: a worker that dies young still gets something done.
  loadGrowthModel();
  const jobs = jobStarter(store, clock);
  const daysAgo = (days: number) => new Date(clock.now().getTime() - days * DAY_MS);
  const handlers: { [N in JobName]: (data: JobData[N]) => Promise<unknown> } = {
    'forecast-run': ({ runId }) => splitForecastRun(store, clock, runId, null),
    'forecast-part': (data) => forecastPart(store, clock, assessor, data),
    'recall-run': ({ runId, month }) => splitForecastRun(store, clock, runId, month),
    'recall-list': (data) => recallList(store, clock, assessor, data),
    import: (data) => importJob(store, clock, data),
    nightly: async () => {
      await store.sessions.sweep(clock.now());
      await store.signInTries.sweep(clock.now());
      await store.idempotency.sweep(daysAgo(KEEP_ANSWERS_DAYS));
      await store.imports.sweep(daysAgo(KEEP_DRY_RUNS_DAYS));
      await store.caseload.sweepChanges(daysAgo(1));
      await jobs.startForecasts();
    },
    morning: () => jobs.startRecallRun(null),
    'gave-up': async ({ runId }) => {
      if (runId) await store.jobRuns.end(runId, 'failed', 'Tried several times without success', clock.now());
    },
  };
  for (const name of Object.keys(handlers) as JobName[]) {
    const handle = handlers[name] as (data: unknown) => Promise<unknown>;
    store.queue.take(name, config.jobPollSeconds, async (data, jobId) => {
      const started = performance.now();
      try {
        await handle(data);
      } catch (error) {
        const said = loggedError(error as Error);
        log.error({ job: name, jobId, ...said }, 'job failed, will be tried again');
        throw new Error(`${said.error} ${said.code ?? ''}`.trim());
      }
      log.info({ job: name, jobId, ms: Math.round(performance.now() - started) }, 'job done');
    });
  }
  await store.queue.schedule('nightly', '15 2 * * *', config.timeZone);
  // The list looks five weeks ahead from today, so it is made anew every working day.
  await store.queue.schedule('morning', `0 ${MORNING_HOUR} * * 1-5`, config.timeZone);
}
