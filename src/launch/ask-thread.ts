import { parentPort, Worker } from 'node:worker_threads';

/** What goes to a thread and comes back; `said` is what it tells unasked. */
interface Question<Q> {
  readonly id: number;
  readonly question: Q;
}
type Answer<A> =
  | { readonly id: number; readonly answer: A }
  | { readonly id: number; readonly failed: string }
  | { readonly said: string };
type Waiting<A> = {
  /** Whom it was asked. */
  readonly of: Worker;
  readonly resolve: (answer: A) => void;
  readonly reject: (error: Error) => void;
};

export interface AskedThread<Q, A> {
  ask(question: Q): Promise<A>;
  /** Whoever still waits is refused, and so is who asks later. */
  end(): Promise<void>;
}

export interface AskThreadOptions {
  /** Renewed after so many questions, for a thread that keeps something of every one. */
  readonly asksAThread?: number;
  /** So many of the last questions are put to a new thread before it takes over: it is as quick by then as the old one. */
  readonly rehearsed?: number;
  readonly heard?: (said: string) => void;
}

/** A thread that answers questions, started by the first one and anew where it died; it never keeps a process alive by itself. */
export function askThread<Q, A>(
  launcher: URL,
  { asksAThread = Number.POSITIVE_INFINITY, rehearsed = 0, heard }: AskThreadOptions = {},
): AskedThread<Q, A> {
  const waiting = new Map<number, Waiting<A>>();
  const lastAsked: Q[] = [];
  let thread: Worker | null = null;
  let next: Worker | null = null;
  let ended = false;
  let asked = 0;
  const waitFor = (worker: Worker) => [...waiting].filter(([, { of }]) => of === worker);
  const gone = (worker: Worker) => {
    if (thread === worker) thread = null;
    if (next === worker) next = null;
    for (const [id, { reject }] of waitFor(worker)) {
      waiting.delete(id);
      reject(new Error('the thread ended'));
    }
  };
  const letGo = (worker: Worker) => {
    if (waitFor(worker).length > 0) return;
    worker.unref();
    if (worker !== thread && worker !== next) void worker.terminate();
  };
  const started = (): Worker => {
    const worker = new Worker(launcher);
    worker.on('message', (answer: Answer<A>) => {
      if ('said' in answer) return heard?.(answer.said);
      const asker = waiting.get(answer.id);
      waiting.delete(answer.id);
      if ('answer' in answer) asker?.resolve(answer.answer);
      else asker?.reject(new Error(answer.failed));
      letGo(worker);
    });
    worker.on('error', () => gone(worker));
    worker.on('exit', () => gone(worker));
    return worker;
  };
  const askOf = (of: Worker, question: Q): Promise<A> =>
    new Promise((resolve, reject) => {
      const id = ++asked;
      waiting.set(id, { of, resolve, reject });
      of.ref();
      of.postMessage({ id, question } satisfies Question<Q>);
    });
  let toAsk = asksAThread;
  const renew = async () => {
    const worker = started();
    next = worker;
    await Promise.allSettled(lastAsked.map((question) => askOf(worker, question)));
    if (next !== worker) return;
    const before = thread;
    [thread, next] = [worker, null];
    toAsk = asksAThread;
    if (before) letGo(before);
  };
  return {
    async ask(question) {
      if (ended) throw new Error('the thread ended');
      thread ??= started();
      if (--toAsk <= 0 && next === null) void renew();
      if (rehearsed > 0) lastAsked.push(question);
      if (lastAsked.length > rehearsed) lastAsked.shift();
      return askOf(thread, question);
    },
    async end() {
      ended = true;
      await Promise.all([thread?.terminate(), next?.terminate()]);
    },
  };
}

/** The thread's side: answers one question after another. */
export function answerAsked<Q, A>(answerTo: (question: Q) => Promise<A>): void {
  const send = (answer: Answer<A>) => parentPort?.postMessage(answer);
  parentPort?.on('message', ({ id, question }: Question<Q>) => {
    answerTo(question).then(
      (answer) => send({ id, answer }),
      (error: Error) => send({ id, failed: error.message }),
    );
  });
}

/** Tells whoever started this thread. */
export const sayToAsker = (said: string): void => parentPort?.postMessage({ said } satisfies Answer<never>);
