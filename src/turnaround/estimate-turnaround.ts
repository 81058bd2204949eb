import { daysBetween, type IsoDate } from '../records/dates.js';
import type { FamilyId, WorkshopJob } from '../records/device.js';
import type { FitRules } from '../rules/fit-rule.js';
import type { TurnaroundEstimate } from './contract.js';
import { defaultTurnaround } from './default-turnaround.js';
import { isTraceable, type WorkshopLoad, workshopLoad } from './jobs-in-workshop.js';
import { type Duration, durationSamples, fitLogNormalDurations } from './log-normal-durations.js';

/** Only recent jobs speak for the workshop of today, days (common practice, no source). */
const HISTORY_DAYS = 3 * 365;

/**
 * Days from cast to fitting for a device cast today: the family's default, moved by the clinic's own jobs as they
 * accumulate and by how full the workshop is. Only what was known on `today` is used.
 * @param jobs every job of the workshop, all families (they queue for the same benches)
 * @param inWorkshop jobs between cast and fitting now; counted from `jobs` when left out
 * @param rules the clinic's rules, where they are not the shipped ones
 */
export function estimateTurnaround(
  jobs: readonly WorkshopJob[],
  family: FamilyId,
  today: IsoDate,
  inWorkshop?: number,
  rules?: FitRules,
): TurnaroundEstimate {
  const loadOn = workshopLoad(jobs);
  const { durations, meanLogLoad } = familyDurations(jobs, loadOn, family, today);
  const model = fitLogNormalDurations(durations, defaultTurnaround(family, rules));
  const jobsUsed = durations.filter((d) => !d.running).length;
  const load = Math.log1p(inWorkshop ?? loadOn(today)) - meanLogLoad;
  const samplesDays = durationSamples(model, jobsUsed > 0 ? load : 0);
  const at = (p: number) => samplesDays[Math.min(samplesDays.length - 1, Math.floor(p * samplesDays.length))];
  return {
    family,
    p50Days: at(0.5),
    p80Days: at(0.8),
    samplesDays,
    basis: jobsUsed > 0 ? 'clinic-history' : 'default',
    jobsUsed,
  };
}

/** This family's durations as known on `today`, with the log of the jobs in the workshop at each cast, centred. */
function familyDurations(
  jobs: readonly WorkshopJob[],
  loadOn: WorkshopLoad,
  family: FamilyId,
  today: IsoDate,
) {
  const own = jobs.filter(
    (j) =>
      j.family === family &&
      isTraceable(j) &&
      j.stages.cast !== undefined &&
      j.stages.cast <= today &&
      daysBetween(j.stages.cast, today) <= HISTORY_DAYS,
  );
  const logLoads = own.map((j) => Math.log1p(loadOn(j.stages.cast!)));
  const meanLogLoad = logLoads.length ? logLoads.reduce((s, x) => s + x, 0) / logLoads.length : 0;
  const durations = own.map((job, i): Duration => {
    const { cast, fit } = job.stages;
    const running = fit === undefined || fit > today;
    return { days: daysBetween(cast!, running ? today : fit), running, load: logLoads[i] - meanLogLoad };
  });
  return { durations, meanLogLoad };
}
