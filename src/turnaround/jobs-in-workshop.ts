import type { IsoDate } from '../records/dates.js';
import type { WorkshopJob } from '../records/device.js';

/** How many jobs were between cast and fitting at the start of a day, as anyone could have known on that day. */
export type WorkshopLoad = (on: IsoDate) => number;

/**
 * Counts the jobs of a workshop on any day; sorted once, so that a long history is asked about many days at no cost.
 * A cancelled job, or a fitted one without its date, counts nowhere: the record does not say when it left.
 */
export function workshopLoad(jobs: readonly WorkshopJob[]): WorkshopLoad {
  const counted = jobs.filter(
    (j) => isTraceable(j) && j.stages.cast !== undefined && (j.stages.fit ?? j.stages.cast) >= j.stages.cast,
  );
  const begun = counted.map((j) => j.stages.cast!).sort();
  const left = counted.flatMap((j) => j.stages.fit ?? []).sort();
  return (on) => before(begun, on) - before(left, on);
}

/** How many of the ascending dates are before `on`. */
function before(dates: readonly IsoDate[], on: IsoDate): number {
  let low = 0;
  let high = dates.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (dates[middle] < on) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Can it be said on any day whether this job was in the workshop? */
export const isTraceable = (job: WorkshopJob): boolean =>
  job.status === 'in-progress' || (job.status === 'fitted' && job.stages.fit !== undefined);
