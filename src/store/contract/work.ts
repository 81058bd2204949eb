/** Work in the queue, and what is derived by it. */

import { z } from 'zod';

/** Work that any worker process on any host may take up. */
export interface JobData {
  /** Splits the caseload into parts. */
  readonly 'forecast-run': { readonly runId: string };
  /** One part of it; doing it again does nothing. */
  readonly 'forecast-part': {
    readonly runId: string;
    readonly part: number;
    readonly ids: readonly string[];
    /** The month whose recall list is made once every part is done, '' for the weeks ahead of today; null for forecasts alone. */
    readonly month: string | null;
    /** Version of the clinic's fit limits when the run began. */
    readonly limitsVersion: number;
  };
  /** Forecasts in parts, then the list. */
  readonly 'recall-run': { readonly runId: string; readonly month: string };
  readonly 'recall-list': { readonly runId: string; readonly month: string };
  readonly import: { readonly runId: string; readonly importId: string; readonly actor: string };
  /** On the clock. */
  readonly nightly: Record<string, never>;
  readonly morning: Record<string, never>;
  /** Where a job ends up that failed for good. */
  readonly 'gave-up': { readonly runId?: string };
}
export type JobName = keyof JobData;

export const jobNames = Object.keys({
  'gave-up': true,
  'forecast-run': true,
  'forecast-part': true,
  'recall-run': true,
  'recall-list': true,
  import: true,
  nightly: true,
  morning: true,
} satisfies Record<JobName, true>) as readonly JobName[];

/** What a worker does with the queue. */
export interface WorkQueue {
  /** Takes jobs of a kind, one at a time, until the store is closed; one that throws is tried again. */
  take<N extends JobName>(
    name: N,
    pollSeconds: number,
    handle: (data: JobData[N], jobId: string) => Promise<unknown>,
  ): void;
  schedule(name: 'nightly' | 'morning', cron: string, timeZone: string): Promise<void>;
  /** Jobs not yet taken up. */
  waiting(): Promise<{ readonly name: JobName; readonly jobs: number }[]>;
}

/** One long piece of work; `done`/`total` count children (rows for an import). */
export const jobRun = z.object({
  id: z.string(),
  kind: z.enum(['forecasts', 'recall', 'import']),
  status: z.enum(['queued', 'running', 'done', 'failed']),
  done: z.number(),
  total: z.number(),
  message: z.string(),
  startedAt: z.string(),
  finishedAt: z.string().nullable(),
});
export type JobRun = Readonly<z.infer<typeof jobRun>>;
export const isUnderWay = (job: JobRun | null | undefined): boolean =>
  job?.status === 'queued' || job?.status === 'running';
