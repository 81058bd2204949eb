import { createHash } from 'node:crypto';
import { Worker } from 'node:worker_threads';
import type { ChartAnswer, ChartQuestion } from './chart-thread.js';
import type { Spec } from './fill-spec.js';
import { chartWarning, drawChartsBy, drawSvg } from './render-chart.js';

/** Pictures kept, by what they show: a page asked for again is not drawn again. About 60 kB each. */
const KEPT = 200;
/** A thread that has drawn so many is renewed: Vega keeps something of every picture. */
const DRAWN_A_THREAD = 5000;

type Waiting = { readonly resolve: (svg: string) => void; readonly reject: (error: Error) => void };

/**
 * From now on charts are drawn in a thread beside the web server, which goes on answering meanwhile: a growth chart
 * takes as long as twenty pages. Gives back how to end it; charts are then drawn on the spot again.
 */
export function drawChartsAside(): () => Promise<void> {
  const kept = new Map<string, Promise<string>>();
  const waiting = new Map<number, Waiting>();
  let thread: Worker | null = null;
  let next = 0;
  const giveUp = (was: Worker) => {
    if (thread === was) thread = null;
    for (const { reject } of waiting.values()) reject(new Error('the drawing thread ended'));
    waiting.clear();
  };
  const started = (): Worker => {
    if (thread) return thread;
    const worker = new Worker(new URL('./chart-thread.mjs', import.meta.url));
    worker.on('message', (answer: ChartAnswer) => {
      if ('warning' in answer) return chartWarning(answer.warning);
      const asked = waiting.get(answer.id);
      waiting.delete(answer.id);
      if ('svg' in answer) asked?.resolve(answer.svg);
      else asked?.reject(new Error(answer.failed));
      if (waiting.size > 0) return;
      // Nobody waits: the thread need not keep the process alive, and may be renewed.
      worker.unref();
      if (next % DRAWN_A_THREAD === 0) {
        thread = null;
        worker.removeAllListeners();
        void worker.terminate();
      }
    });
    worker.on('error', () => giveUp(worker));
    worker.on('exit', () => giveUp(worker));
    thread = worker;
    return worker;
  };
  const ask = (spec: Spec): Promise<string> =>
    new Promise((resolve, reject) => {
      const id = ++next;
      waiting.set(id, { resolve, reject });
      const worker = started();
      worker.ref();
      worker.postMessage({ id, spec } satisfies ChartQuestion);
    });
  drawChartsBy((spec) => {
    const key = createHash('sha256').update(JSON.stringify(spec)).digest('base64');
    // The one asked for last stands last.
    const before = kept.get(key);
    kept.delete(key);
    const svg = before ?? ask(spec).catch(() => drawSvg(spec));
    kept.set(key, svg);
    svg.catch(() => kept.delete(key));
    if (kept.size > KEPT) kept.delete(kept.keys().next().value as string);
    return svg;
  });
  return async () => {
    drawChartsBy(drawSvg);
    await thread?.terminate();
  };
}
