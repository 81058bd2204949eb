import type { WorkshopJob } from '../devices/contract.js';
import type { IsoDate } from '../measurements/dates.js';

/**
 * How many jobs were between cast and fitting at the start of a day, as anyone could have known on that day.
 * A cancelled job, or a fitted one without its date, counts nowhere: the record does not say when it left.
 */
export function jobsInWorkshop(jobs: readonly WorkshopJob[], on: IsoDate): number {
  let count = 0;
  for (const job of jobs) {
    const { cast, fit } = job.stages;
    if (!isTraceable(job)) continue;
    if (cast !== undefined && cast < on && (fit === undefined || fit >= on)) count++;
  }
  return count;
}

/** Can it be said on any day whether this job was in the workshop? */
export const isTraceable = (job: WorkshopJob): boolean =>
  job.status === 'in-progress' || (job.status === 'fitted' && job.stages.fit !== undefined);
