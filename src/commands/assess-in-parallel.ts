import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { ChildAssessment } from '../forecast/assess-child.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';

/** What can be handed to another thread: no growth posterior. */
export type Answer = Omit<ChildAssessment, 'growth'>;

export interface AssessSettings {
  readonly today: IsoDate;
  readonly model: string | undefined;
  readonly rules: FitRules;
  readonly seed: number;
  readonly draws: number;
}

const MOST_THREADS = 8;

/** Threads that load the model while something else is still being read. */
export function startThreads(settings: AssessSettings, most = MOST_THREADS): Worker[] {
  const launcher = new URL('./assess-worker.mjs', import.meta.url);
  const count = Math.min(MOST_THREADS, availableParallelism(), most);
  return Array.from({ length: count }, () => {
    const worker = new Worker(launcher, { workerData: settings });
    // Nobody waits for it until it has work.
    worker.unref();
    return worker;
  });
}

/** A thread has the next child at hand while the answer for the one before is on its way. */
const AT_HAND = 2;

/** Every child's assessment, in the order of the records, on all processors; the answers are those of one thread. */
export async function assessInParallel(
  records: readonly ChildRecord[],
  settings: AssessSettings,
  onProgress: (done: number, total: number) => void,
  threads: readonly Worker[] = startThreads(settings, records.length),
): Promise<Answer[]> {
  const answers: Answer[] = new Array(records.length);
  let next = 0;
  let done = 0;
  const work = (worker: Worker): Promise<void> =>
    new Promise((resolve, reject) => {
      worker.ref();
      const given: number[] = [];
      const takeOne = (): void => {
        if (next < records.length) {
          given.push(next);
          worker.postMessage(records[next++]);
        } else if (given.length === 0) resolve();
      };
      // A thread answers in the order in which it was asked.
      worker.on('message', (answer: Answer) => {
        answers[given.shift() as number] = answer;
        onProgress(++done, records.length);
        takeOne();
      });
      worker.on('error', reject);
      for (let k = 0; k < AT_HAND; k++) takeOne();
    });
  try {
    await Promise.all(threads.map(work));
  } finally {
    await Promise.all(threads.map((worker) => worker.terminate()));
  }
  return answers;
}
