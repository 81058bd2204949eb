/**
 * Loaded into the web server by the load bench alone (`node --import`): of every slow request, what it waited for. A line of
 * JSON each goes to the file WATCH_REQUESTS; the product knows nothing of it.
 */
import { AsyncLocalStorage } from 'node:async_hooks';
import { subscribe } from 'node:diagnostics_channel';
import { appendFileSync } from 'node:fs';
import { monitorEventLoopDelay, PerformanceObserver } from 'node:perf_hooks';
import { isMainThread, Worker } from 'node:worker_threads';
import pg from 'pg';

/** From here on a request is written down, ms. */
const SLOW_MS = 300;
/** A wait of the event loop is looked up by the window it fell into. */
const WINDOW_MS = 100;

if (isMainThread && process.argv.includes('serve')) watch(process.env.WATCH_REQUESTS);

function watch(file) {
  const current = new AsyncLocalStorage();
  const windows = loopWindows();
  subscribe('http.server.request.start', ({ request, response }) => {
    const record = { at: Date.now(), url: request.url, pool: 0, query: 0, thread: 0, slowest: '' };
    current.enterWith(record);
    response.once('close', () => {
      const ms = Date.now() - record.at;
      if (ms < SLOW_MS) return;
      const seen = windows.filter((w) => w.at >= record.at);
      const loop = Math.max(0, ...seen.map((w) => w.delay));
      const held = seen.reduce((sum, w) => sum + w.delay, 0);
      const gc = seen.reduce((sum, w) => sum + w.gc, 0);
      appendFileSync(file, `${JSON.stringify({ ...record, ms, loop, held, gc })}\n`);
    });
  });
  const timed = async (what, work, name = '') => {
    const record = current.getStore();
    const began = performance.now();
    try {
      return await work();
    } finally {
      const took = performance.now() - began;
      if (record) {
        record[what] += took;
        if (what === 'query' && took > 100) record.slowest = `${took.toFixed(0)} ms ${name}`;
      }
    }
  };
  const { connect } = pg.Pool.prototype;
  pg.Pool.prototype.connect = function (callback) {
    return callback ? connect.call(this, callback) : timed('pool', () => connect.call(this));
  };
  const { query } = pg.Client.prototype;
  pg.Client.prototype.query = function (...asked) {
    const answer = query.apply(this, asked);
    return answer instanceof Promise
      ? timed(
          'query',
          () => answer,
          String(asked[0]?.text ?? asked[0])
            .replace(/\s+/g, ' ')
            .slice(0, 120),
        )
      : answer;
  };
  watchThreads(current);
}

/** The last minute in windows: the longest wait of the loop and the time in the collector. */
function loopWindows() {
  const delay = monitorEventLoopDelay({ resolution: 10 });
  delay.enable();
  let gc = 0;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) gc += duration;
  }).observe({ entryTypes: ['gc'] });
  const windows = [];
  setInterval(() => {
    windows.push({ at: Date.now(), delay: delay.count ? Math.max(0, delay.max / 1e6 - 10) : 0, gc });
    if (windows.length > 60_000 / WINDOW_MS) windows.shift();
    delay.reset();
    gc = 0;
  }, WINDOW_MS).unref();
  return windows;
}

/** From the question to a thread until its answer, queue and all. */
function watchThreads(current) {
  const asked = new WeakMap();
  const { postMessage } = Worker.prototype;
  Worker.prototype.postMessage = function (message, ...more) {
    const record = current.getStore();
    if (record && message?.id !== undefined) {
      if (!asked.has(this)) {
        asked.set(this, new Map());
        this.on('message', ({ id }) => {
          const waiting = asked.get(this).get(id);
          if (waiting) waiting.record.thread += performance.now() - waiting.began;
          asked.get(this).delete(id);
        });
      }
      asked.get(this).set(message.id, { record, began: performance.now() });
    }
    return postMessage.call(this, message, ...more);
  };
}
