import { createHash } from 'node:crypto';
import { askThread } from '../launch/ask-thread.js';
import { lastUsed } from '../statistics/last-used.js';
import { chartWarning, drawChartsBy, drawHere } from './render-chart.js';

/** Pictures kept, by what they show: a page asked for again is not drawn again. About 60 kB each. */
const KEPT = 200;
/** The specification as text, which goes to a thread for a tenth of what its thousand rows cost. */
export interface Asked {
  readonly spec: string;
  readonly slim: boolean;
}

/** A thread that has drawn so many is renewed: Vega keeps something of every picture. */
const DRAWN_A_THREAD = 5000;
/** Pictures that a new thread draws once more before it takes over: most forms of a clinic's charts. */
const REHEARSED = 20;

/**
 * From now on charts are drawn in a thread beside the web server, which goes on answering meanwhile: a growth chart
 * takes as long as twenty pages. Gives back how to end it; charts are then drawn on the spot again.
 */
export function drawChartsAside(): () => Promise<void> {
  const kept = lastUsed<Promise<string>>(KEPT);
  const thread = askThread<Asked, string>(new URL('./chart-thread.mjs', import.meta.url), {
    asksAThread: DRAWN_A_THREAD,
    rehearsed: REHEARSED,
    heard: chartWarning,
  });
  drawChartsBy((chart, slim) => {
    const spec = JSON.stringify(chart);
    const key = `${slim} ${createHash('sha256').update(spec).digest('base64')}`;
    return kept(key, () => thread.ask({ spec, slim }).catch(() => drawHere(chart, slim)));
  });
  return async () => {
    drawChartsBy(drawHere);
    await thread.end();
  };
}
