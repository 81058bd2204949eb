import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { goLast } from '../launch/go-last.js';

export interface Workers {
  /** They end the job in hand or hand it back; whoever has not ended after so many seconds is killed. */
  stop(seconds: number): Promise<void>;
}

const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 30_000;
/** A worker that lived so long did not die of how it was started. */
const LIVED_MS = 20_000;

/** Workers beside the web server, so that heavy sums never hold up a page; one that dies is started again. */
export function startWorkers(count: number, url: string): Workers {
  let stopping = false;
  const running = new Set<ChildProcess>();
  let noneLeft = () => {};
  const start = (wait: number) => {
    const started = Date.now();
    const child = fork(fileURLToPath(new URL('../doorpost.mjs', import.meta.url)), ['worker'], {
      env: { ...process.env, DATABASE_URL: url },
      // A Ctrl-C is ours to hear: we stop them in order.
      detached: process.platform !== 'win32',
    });
    running.add(child);
    child.on('spawn', () => goLast(child.pid));
    child.on('exit', () => {
      running.delete(child);
      if (running.size === 0) noneLeft();
      const next = Date.now() - started > LIVED_MS ? FIRST_WAIT_MS : Math.min(2 * wait, LONGEST_WAIT_MS);
      if (!stopping) setTimeout(() => stopping || start(next), wait).unref();
    });
  };
  for (let i = 0; i < count; i++) start(FIRST_WAIT_MS);
  return {
    stop(seconds) {
      stopping = true;
      return new Promise((resolve) => {
        noneLeft = resolve;
        if (running.size === 0) return resolve();
        for (const child of running) child.kill('SIGTERM');
        setTimeout(() => {
          for (const child of running) child.kill('SIGKILL');
        }, seconds * 1000).unref();
      });
    },
  };
}
