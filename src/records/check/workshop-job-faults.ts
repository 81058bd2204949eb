import type { IsoDate } from '../dates.js';
import { stageIds, type WorkshopJob } from '../device.js';
import { type Families, familyFaults } from './device-faults.js';
import { dateFaults, type Fault } from './refuse.js';

/** Stages are done one after the other, none before birth and none after today. */
export function* workshopJobFaults(
  job: Pick<WorkshopJob, 'family' | 'stages'>,
  { birthDate, today, families }: { birthDate: IsoDate; today: IsoDate; families: Families },
): Generator<Fault> {
  const what = 'Workshop job';
  yield* familyFaults(what, job.family, families);
  let [from, since] = [birthDate, 'birth'];
  for (const stage of stageIds) {
    const date = job.stages[stage];
    if (date === undefined) continue;
    yield* dateFaults(what, `stages.${stage}`, date, { from, since, today });
    [from, since] = [date, `the stage ${stage}`];
  }
}
