import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { chmod, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { ClinicAtWork } from './clinic-at-work.js';
import { pause, until } from './folder-processes.js';
import type { Scenario } from './scenario.js';

const DAY = 86_400;
const source = fileURLToPath(new URL('shifted-clock.c', import.meta.url));
/** Visits go on at once; a list within the lease, the queue's look for lost jobs and the making itself. */
const VISITS_AGAIN_SECONDS = 20;
const LIST_AGAIN_SECONDS = 60;

/** The clock of service, worker and database jumps a day forward and a day back while people write. */
export const clock: Scenario = async (say) => {
  const tools = mkdtempSync(path.join(tmpdir(), 'doorpost-clock-'));
  await chmod(tools, 0o755);
  const [library, shiftFile] = [path.join(tools, 'clock.so'), path.join(tools, 'seconds')];
  if (spawnSync('cc', ['-shared', '-fPIC', '-O1', '-o', library, source]).status !== 0)
    return { faults: [], figures: {}, skipped: 'needs a C compiler (cc) and Linux' };
  writeFileSync(shiftFile, '0');
  const clinic = await ClinicAtWork.open({
    WORKERS: '1',
    TODAY: '',
    LD_PRELOAD: library,
    DOORPOST_CLOCK_FILE: shiftFile,
  });
  try {
    const service = await clinic.start('serve');
    await service.says(/worker ready/, 120);
    clinic.begin();
    const lists = async () =>
      (await clinic.rows<{ n: number }>('select count(*)::int as n from recall_runs'))[0].n;
    const goesOn = async (when: string) => {
      const [visits, made] = [clinic.acknowledged.visits.length, await lists()];
      const since = Date.now();
      await until(() => clinic.acknowledged.visits.length > visits + 10, VISITS_AGAIN_SECONDS).catch(() =>
        clinic.faults.push(`${when}: no visit was taken for ${VISITS_AGAIN_SECONDS} s`),
      );
      // The first may have been under way already.
      await until(async () => (await lists()) > made + 1, LIST_AGAIN_SECONDS).catch(() =>
        clinic.faults.push(`${when}: no list was made for ${LIST_AGAIN_SECONDS} s`),
      );
      const [{ today }] = await clinic.rows<{ today: string }>(
        'select today::text from recall_runs order by seq desc limit 1',
      );
      say(`${when}: two lists after ${Date.now() - since} ms, the last of ${today}`);
      return today;
    };
    const days = [await goesOn('before')];
    for (const [when, seconds] of [
      ['a day ahead', DAY],
      ['put right again', 0],
      ['a day behind', -DAY],
      ['put right once more', 0],
    ] as const) {
      writeFileSync(shiftFile, String(seconds));
      await pause(500);
      days.push(await goesOn(when));
    }
    const expected = [0, 1, 0, -1, 0].map((n) =>
      new Date(Date.now() + n * DAY * 1000).toISOString().slice(0, 10),
    );
    if (days.join() !== expected.join())
      clinic.faults.push(`lists were made for ${days.join(', ')} instead of ${expected.join(', ')}`);
    await clinic.end();
    const figures = await clinic.account();
    await service.end('SIGTERM');
    return {
      faults: clinic.faults,
      figures: { listDays: days, ...figures },
      answers: clinic.acknowledged.answers,
    };
  } finally {
    await clinic.close();
    await rm(tools, { recursive: true, force: true });
  }
};
