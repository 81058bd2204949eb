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
type Waiting<A> = { readonly resolve: (answer: A) => void; readonly reject: (error: Error) => void };

export interface AskedThread<Q, A> {
  ask(question: Q): Promise<A>;
  /** Whoever still waits is refused, and so is who asks later. */
  end(): Promise<void>;
}

export interface AskThreadOptions {
  /** Renewed after so many answers, for a thread that keeps something of every one. */
  readonly answersAThread?: number;
  readonly heard?: (said: string) => void;
}

/** A thread that answers questions, started by the first one and anew where it died; it never keeps a process alive by itself. */
export function askThread<Q, A>(
  launcher: URL,
  { answersAThread, heard }: AskThreadOptions = {},
): AskedThread<Q, A> {
  const waiting = new Map<number, Waiting<A>>();
  let thread: Worker | null = null;
  let ended = false;
  let next = 0;
  const giveUp = (was: Worker) => {
    if (thread !== was) return;
    thread = null;
    for (const { reject } of waiting.values()) reject(new Error('the thread ended'));
    waiting.clear();
  };
  const onAnswer = (from: Worker, answer: Answer<A>) => {
    if ('said' in answer) return heard?.(answer.said);
    const asked = waiting.get(answer.id);
    waiting.delete(answer.id);
    if ('answer' in answer) asked?.resolve(answer.answer);
    else asked?.reject(new Error(answer.failed));
    if (waiting.size > 0) return;
    from.unref();
    if (answersAThread && next % answersAThread === 0) {
      thread = null;
      void from.terminate();
    }
  };
  const started = (): Worker => {
    if (thread) return thread;
    const worker = new Worker(launcher);
    worker.on('message', (answer: Answer<A>) => onAnswer(worker, answer));
    worker.on('error', () => giveUp(worker));
    worker.on('exit', () => giveUp(worker));
    thread = worker;
    return worker;
  };
  return {
    ask: (question) =>
      new Promise((resolve, reject) => {
        if (ended) return reject(new Error('the thread ended'));
        const id = ++next;
        waiting.set(id, { resolve, reject });
        const worker = started();
        worker.ref();
        worker.postMessage({ id, question } satisfies Question<Q>);
      }),
    async end() {
      ended = true;
      await thread?.terminate();
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
