import { createHash } from 'node:crypto';
import { askThread } from '../launch/ask-thread.js';
import { lastUsed } from '../statistics/last-used.js';
import type { Spec } from './fill-spec.js';
import { chartWarning, drawChartsBy, drawSvg } from './render-chart.js';

/** Pictures kept, by what they show: a page asked for again is not drawn again. About 60 kB each. */
const KEPT = 200;
/** A thread that has drawn so many is renewed: Vega keeps something of every picture. */
const DRAWN_A_THREAD = 5000;

/**
 * From now on charts are drawn in a thread beside the web server, which goes on answering meanwhile: a growth chart
 * takes as long as twenty pages. Gives back how to end it; charts are then drawn on the spot again.
 */
export function drawChartsAside(): () => Promise<void> {
  const kept = lastUsed<Promise<string>>(KEPT);
  const thread = askThread<Spec, string>(new URL('./chart-thread.mjs', import.meta.url), {
    answersAThread: DRAWN_A_THREAD,
    heard: chartWarning,
  });
  drawChartsBy((spec) => {
    const key = createHash('sha256').update(JSON.stringify(spec)).digest('base64');
    return kept(key, () => thread.ask(spec).catch(() => drawSvg(spec)));
  });
  return async () => {
    drawChartsBy(drawSvg);
    await thread.end();
  };
}
