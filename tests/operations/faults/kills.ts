import type { Running } from '../running-service.js';
import { ClinicAtWork } from './clinic-at-work.js';
import { pause, postmasterOf, until } from './folder-processes.js';
import type { Scenario } from './scenario.js';

/**
 * SIGKILL of the web server, of two workers and of the database, `times` in all, while visits, imports and lists go on.
 * Each is raised again as a supervisor would; the service raises its database itself.
 */
export const kills: Scenario = async (say, times = 12, seed = 1) => {
  const clinic = await ClinicAtWork.open();
  const count = { serve: 0, worker: 0, database: 0 };
  const { answers } = clinic.acknowledged;
  let ended = 0;
  const life = randomLives(seed);
  const killed = (kind: keyof typeof count) => {
    count[kind]++;
    ended++;
    say(`${kind}: ${ended} of ${times} kills, ${clinic.acknowledged.visits.length} visits`);
  };
  const serving: { now?: Running } = {};
  const raise = async (kind: 'serve' | 'worker'): Promise<Running> => {
    for (let n = 1; ; n++) {
      try {
        const running = await clinic.start(kind);
        if (kind === 'serve') serving.now = running;
        return running;
      } catch (error) {
        // Its database may be gone just now; a supervisor tries again.
        if (n > 20) throw error;
        await pause(500);
      }
    }
  };
  const killProcess = async (kind: 'serve' | 'worker', running: Running, share: number) => {
    let alive = running;
    for (let n = 0; n < share; n++) {
      await pause(life());
      await alive.kill9();
      killed(kind);
      alive = await raise(kind);
    }
    return alive;
  };
  const killDatabase = async (share: number) => {
    for (let n = 0; n < share; n++) {
      await until(
        () => clinic.isReady(),
        180,
        () => `${[...answers]} ${serving.now?.output}`,
      );
      await pause(life());
      const pid = await postmasterOf(clinic.folder);
      if (pid === null) continue;
      try {
        process.kill(pid, 'SIGKILL');
        killed('database');
      } catch {
        // It is being raised just now.
      }
    }
  };
  try {
    const serve = await raise('serve');
    const workers = await Promise.all([raise('worker'), raise('worker')]);
    clinic.begin();
    // The service raises its database in a second; a process that is started takes longer.
    const each = Math.max(1, Math.floor(times / 6));
    await Promise.all([
      killProcess('serve', serve, each),
      ...workers.map((worker) => killProcess('worker', worker, each)),
      killDatabase(times - 3 * each),
    ]);
    await until(
      () => clinic.isReady(),
      60,
      () => `${[...answers]} ${serving.now?.output}`,
    );
    await clinic.end();
    const figures = await clinic.account();
    return {
      faults: clinic.faults,
      figures: { kills: count, ...figures },
      answers: clinic.acknowledged.answers,
    };
  } finally {
    await clinic.close();
  }
};

function randomLives(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return 50 + (state % 1500);
  };
}
