import { type StageId, stageIds, type WorkshopJob } from '../devices/contract.js';
import { addDaysIso, daysBetween, type IsoDate } from '../measurements/dates.js';
import { defaultTurnaround } from './default-turnaround.js';
import { isTraceable } from './jobs-in-workshop.js';
import { durationSamples, fitLogNormalDurations } from './log-normal-durations.js';

/** Share of the turnaround still to come once a stage is done (common practice, no source). */
const remainingShare: Readonly<Record<StageId, number>> = {
  cast: 1,
  fill: 0.8,
  rectify: 0.65,
  mould: 0.5,
  assemble: 0.35,
  finish: 0.2,
  fit: 0,
};
const PRIOR_WEIGHT = 8;
const SAMPLES = 60;

export interface ExpectedFitting {
  readonly jobId: string;
  /** Last stage known to be done. */
  readonly stage: StageId;
  /** Dates by which the job is fitted with chance 10, 50, 90 %. */
  readonly p10: IsoDate;
  readonly p50: IsoDate;
  readonly p90: IsoDate;
  /** Equally likely fitting dates as days from today, ascending. */
  readonly samplesDays: readonly number[];
}

/**
 * When a job now in the workshop will be fitted: the time other jobs of its family took from the stage it has
 * reached, given that it has already been waiting since then. Null when it is fitted, cancelled or not begun.
 */
export function expectedFitting(
  job: WorkshopJob,
  jobs: readonly WorkshopJob[],
  today: IsoDate,
): ExpectedFitting | null {
  if (job.status !== 'in-progress') return null;
  const stage = [...stageIds].reverse().find((s) => job.stages[s] !== undefined && job.stages[s]! <= today);
  if (stage === undefined || stage === 'fit') return null;
  const others = jobs.flatMap((other) => {
    const from = other.stages[stage];
    const { fit } = other.stages;
    if (other.family !== job.family || !isTraceable(other) || from === undefined || from > today) return [];
    const running = fit === undefined || fit > today;
    // The job asked about, and any other not moving now, would otherwise bear witness to itself.
    if (other.id === job.id) return [];
    return [{ days: daysBetween(from, running ? today : fit), running, load: 0 }];
  });
  const standard = defaultTurnaround(job.family);
  const model = fitLogNormalDurations(others, {
    // A part of the way is relatively less certain than the whole: variances add, so the log SD grows as 1/sqrt.
    medianDays: Math.max(1, standard.medianDays * remainingShare[stage]),
    logSd: standard.logSd / Math.sqrt(remainingShare[stage]),
    weight: PRIOR_WEIGHT,
  });
  const waited = daysBetween(job.stages[stage]!, today);
  const samplesDays = durationSamples(model, 0, SAMPLES, waited).map((d) => Math.max(0, d - waited));
  const at = (p: number) => addDaysIso(today, samplesDays[Math.floor(p * samplesDays.length)]);
  return { jobId: job.id, stage, p10: at(0.1), p50: at(0.5), p90: at(0.9), samplesDays };
}
