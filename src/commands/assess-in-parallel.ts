import { availableParallelism } from 'node:os';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { assessChild, type ChildAssessment } from '../forecast/assess-child.js';
import { loadGrowthModel } from '../growth/population/model.js';
import { type AskedThread, askThread } from '../launch/ask-thread.js';
import { compileForMany } from '../launch/compile-for-many.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { FitRules } from '../rules/fit-rule.js';

/** What is kept of a child, and can be handed from one thread to another: no growth posterior. */
export type Answer = Omit<ChildAssessment, 'growth'>;

export interface AssessSettings {
  readonly today: IsoDate;
  readonly rules: FitRules;
  readonly seed: number;
  readonly draws: number;
}

/** A thread takes seconds of a processor to load and to become quick: 700 children are sooner done without, 1,500 with it. */
const THREADS_FROM = 1500;
/** Where it loads while a processor would be idle, it pays sooner. */
export const THREADS_FROM_EARLY = 200;
const MOST_THREADS = 8;
/** Children handed over at once, and hand-overs at hand while the answers to the one before are on their way. */
const BATCH = 20;
const AT_HAND = 2;

/** What a thread is asked: by what to answer from now on, then children. */
export type Asked = AssessSettings | readonly ChildRecord[];

/** One pool a process, kept for whatever is assessed next; idle, it does not keep the process alive. */
const pool: AskedThread<Asked, Answer[]>[] = [];

/** So many threads in all, this one among them, for so many children; they load while it does something else. */
export function startThreads(
  settings: AssessSettings,
  children: number,
  threads = availableParallelism(),
  from = THREADS_FROM,
): void {
  if (children < from) return;
  compileForMany();
  while (pool.length < Math.min(threads, MOST_THREADS) - 1) {
    const thread = askThread<Asked, Answer[]>(new URL('./assess-worker.mjs', import.meta.url));
    // One that cannot be started says so to who asks it for children.
    thread.ask(settings).catch(() => {});
    pool.push(thread);
  }
}

/** By what is set up once, every child's answer. */
export function answering(settings: AssessSettings): (record: ChildRecord) => Answer {
  const context = { ...settings, model: loadGrowthModel() };
  return (record) => {
    const { growth: _, ...answer } = assessChild(record, context);
    return answer;
  };
}

/** Every child's answer in the order of the records, by this thread and the pool's; the same whoever gives them. */
export async function assessInParallel(
  records: readonly ChildRecord[],
  settings: AssessSettings,
  onProgress: (done: number, total: number) => void,
): Promise<Answer[]> {
  const answers: Answer[] = new Array(records.length);
  let next = 0;
  let done = 0;
  // Few at a time towards the end, so that nobody waits for another's last ones.
  const take = (): number[] => {
    const fair = Math.ceil((records.length - next) / (2 * AT_HAND * (pool.length + 1)));
    const size = Math.min(BATCH, fair);
    next += size;
    return Array.from({ length: size }, (_, k) => next - size + k);
  };
  const work = async (answer: (own: readonly ChildRecord[]) => Promise<readonly Answer[]>): Promise<void> => {
    while (next < records.length) {
      const own = take();
      const given = await answer(own.map((i) => records[i]));
      own.forEach((i, k) => {
        answers[i] = given[k];
      });
      done += own.length;
      onProgress(done, records.length);
    }
  };
  const here = answering(settings);
  try {
    await Promise.all([
      ...pool.flatMap((thread) => {
        const set = thread.ask(settings);
        return Array.from({ length: AT_HAND }, () => work((own) => set.then(() => thread.ask(own))));
      }),
      work(async (own) => {
        const given = own.map(here);
        // The others' answers are taken in, and what else waits.
        await nextTurn();
        return given;
      }),
    ]);
  } catch (error) {
    // Where one has failed, nothing more is begun, and the next to ask has threads of its own.
    next = records.length;
    await Promise.all(pool.splice(0).map((thread) => thread.end()));
    throw error;
  }
  return answers;
}
