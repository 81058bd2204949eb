import { daysBetween, type IsoDate } from '../records/dates.js';
import { type StageId, stageIds, type WorkshopJob } from '../records/device.js';
import type { FitRules } from '../rules/fit-rule.js';
import { groupBy } from '../statistics/group-by.js';
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

export interface ExpectedFitting {
  /** Last stage known to be done. */
  readonly stage: StageId;
  /** Equally likely fitting dates as days from today, ascending. */
  readonly samplesDays: readonly number[];
}

/** How often each number of whole days from a stage on was seen, in finished jobs and in those still running. */
interface Seen {
  readonly finished: Map<number, number>;
  readonly running: Map<number, number>;
}

/** What a workshop's jobs say, as known on a day, of the time from each stage on; counted once for every job asked about. */
export interface StageDurations {
  readonly today: IsoDate;
  readonly seen: (family: string, stage: StageId) => Seen;
}

export function stageDurations(jobs: readonly WorkshopJob[], today: IsoDate): StageDurations {
  const byFamily = groupBy(jobs.filter(isTraceable), (j) => j.family);
  const counted = new Map<string, Seen>();
  const count = (family: string, stage: StageId): Seen => {
    const seen: Seen = { finished: new Map(), running: new Map() };
    for (const { stages } of byFamily.get(family) ?? []) {
      const from = stages[stage];
      if (from === undefined || from > today) continue;
      const running = stages.fit === undefined || stages.fit > today;
      const into = running ? seen.running : seen.finished;
      const days = daysBetween(from, running ? today : stages.fit!);
      into.set(days, (into.get(days) ?? 0) + 1);
    }
    return seen;
  };
  return {
    today,
    seen: (family, stage) => {
      const key = `${family} ${stage}`;
      const seen = counted.get(key) ?? count(family, stage);
      counted.set(key, seen);
      return seen;
    },
  };
}

/**
 * When a job now in the workshop will be fitted: the time the others of its family took from the stage it has reached,
 * given that it has already been waiting since then. Null when it is fitted, cancelled or not begun.
 * @param history of the same workshop, the job itself included
 */
export function expectedFitting(
  job: WorkshopJob,
  history: StageDurations,
  rules: FitRules,
): ExpectedFitting | null {
  const { today } = history;
  if (job.status !== 'in-progress') return null;
  const stage = [...stageIds].reverse().find((s) => job.stages[s] !== undefined && job.stages[s]! <= today);
  if (stage === undefined || stage === 'fit') return null;
  const waited = daysBetween(job.stages[stage]!, today);
  const { finished, running } = history.seen(job.family, stage);
  const others = [
    ...[...finished].map(([days, count]) => ({ days, count, running: false, load: 0 })),
    // Without the job asked about, which would otherwise bear witness to itself.
    ...[...running].map(([days, count]) => ({
      days,
      count: days === waited ? count - 1 : count,
      running: true,
      load: 0,
    })),
  ];
  const standard = defaultTurnaround(job.family, rules);
  const model = fitLogNormalDurations(others, {
    // A part of the way is relatively less certain than the whole: variances add, so the log SD grows as 1/sqrt.
    medianDays: Math.max(1, standard.medianDays * remainingShare[stage]),
    logSd: standard.logSd / Math.sqrt(remainingShare[stage]),
    weight: standard.weight,
  });
  const samplesDays = durationSamples(model, 0, waited).map((d) => Math.max(0, d - waited));
  return { stage, samplesDays };
}
