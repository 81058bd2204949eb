import type { JobData, MadeForecasts, Store, StoredAssessment } from '../../store/contract.js';
import type { Assessor } from '../assessor.js';
import type { Clock } from '../clock.js';
import { jobStarter } from './start-jobs.js';

/** Children a part: about a second or two of work, so that a lost worker costs little and progress is seen. */
const PART = 20;

/** Cuts the caseload into parts and queues them in one transaction; for a recall run the list follows the last part. */
export async function splitForecastRun(
  store: Store,
  clock: Clock,
  runId: string,
  month: string | null,
): Promise<void> {
  await store.transaction(async (tx) => {
    // Taken up again after a kill: the parts are queued already.
    if ((await tx.jobRuns.get(runId)).status !== 'queued') return;
    const ids = await tx.caseload.ids();
    const limitsVersion = await tx.fitLimits.version();
    await tx.jobRuns.setTotal(runId, ids.length);
    if (ids.length === 0) await follow(tx, clock, { runId, month, limitsVersion });
    for (let part = 0; part * PART < ids.length; part++)
      await tx.enqueue('forecast-part', {
        runId,
        part,
        ids: ids.slice(part * PART, (part + 1) * PART),
        month,
        limitsVersion,
      });
  });
}

/** Assesses one part. What was computed and that it was computed are kept together; a second time does nothing. */
export async function forecastPart(
  store: Store,
  clock: Clock,
  assessor: Assessor,
  job: JobData['forecast-part'],
): Promise<void> {
  const { runId, part, ids } = job;
  if (await store.jobRuns.isPartDone(runId, part)) return;
  const assessing = await assessor.current();
  const records = await store.caseload.records(ids);
  const fresh: StoredAssessment[] = [];
  const past: MadeForecasts[] = [];
  const kept = await store.forecasts.assessments(ids);
  for (const record of records) {
    const stored = kept.get(record.child.id) ?? null;
    const { now, isNew } = assessing.of(record, stored);
    if (isNew) fresh.push(now);
    // A child seen for the first time brings its past with it.
    if (stored === null) past.push(...assessing.lookBack(record));
  }
  await store.transaction(async (tx) => {
    const { first, complete } = await tx.jobRuns.partDone(runId, part, ids.length);
    if (!first) return;
    await tx.forecasts.save(...fresh);
    await tx.forecasts.saveLookBack(past, clock.today());
    if (complete) await follow(tx, clock, job);
  });
}

/** What comes when every part is done: the recall list, or one more run when the fit limits were changed under it. */
async function follow(
  tx: Store,
  clock: Clock,
  { runId, month, limitsVersion }: Pick<JobData['forecast-part'], 'runId' | 'month' | 'limitsVersion'>,
): Promise<void> {
  if (month !== null) return tx.enqueue('recall-list', { runId, month });
  await tx.jobRuns.end(runId, 'done', '', clock.now());
  if ((await tx.fitLimits.version()) !== limitsVersion) await jobStarter(tx, clock).startForecasts();
}
