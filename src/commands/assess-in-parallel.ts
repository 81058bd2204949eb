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

/** Every child's assessment, in the order of the records, on all processors; the answers are those of one thread. */
export async function assessInParallel(
  records: readonly ChildRecord[],
  settings: AssessSettings,
  onProgress: (done: number, total: number) => void,
): Promise<Answer[]> {
  const answers: Answer[] = new Array(records.length);
  let next = 0;
  let done = 0;
  const work = (worker: Worker): Promise<void> =>
    new Promise((resolve, reject) => {
      let at = -1;
      const takeOne = (): void => {
        if (next < records.length) {
          at = next++;
          worker.postMessage(records[at]);
        } else resolve();
      };
      worker.on('message', (answer: Answer) => {
        answers[at] = answer;
        onProgress(++done, records.length);
        takeOne();
      });
      worker.on('error', reject);
      takeOne();
    });
  const threads = Math.min(MOST_THREADS, availableParallelism(), records.length);
  const launcher = new URL('./assess-worker.mjs', import.meta.url);
  const workers = Array.from({ length: threads }, () => new Worker(launcher, { workerData: settings }));
  try {
    await Promise.all(workers.map(work));
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  return answers;
}
