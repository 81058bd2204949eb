import { spawnSync } from 'node:child_process';
import { appendFileSync, statfsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { ClinicAtWork } from './clinic-at-work.js';
import { pause, until } from './folder-processes.js';
import type { Scenario } from './scenario.js';

const SIZE_MIB = 200;
const FULL_MS = 10_000;

/** People write meanwhile: a piece at a time, until there is no room for another. */
function fillUp(disk: string, filler: string): void {
  const piece = Buffer.alloc(65_536);
  for (;;) {
    const { bavail, bsize } = statfsSync(disk);
    if (bavail * bsize <= piece.length) return;
    try {
      appendFileSync(filler, piece);
    } catch {
      return;
    }
  }
}

/** The data folder on a small disk that is filled up while people write, and then given room again; `times` over. */
export const diskFull: Scenario = async (say, times = 2) => {
  const disk = await mkdtemp(path.join(tmpdir(), 'doorpost-small-disk-'));
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${SIZE_MIB}m`, 'tmpfs', disk]).status !== 0)
    return { faults: [], figures: {}, skipped: 'a small disk can be mounted by root alone' };
  const filler = path.join(disk, 'filler');
  const clinic = await ClinicAtWork.open({ WORKERS: '1' }, disk);
  const seen: Record<string, number> = {};
  try {
    const service = await clinic.start('serve');
    await service.says(/worker ready/, 120);
    clinic.begin(2);
    for (let n = 0; n < times; n++) {
      await pause(2000);
      fillUp(disk, filler);
      // Log is written to files made long before: it takes a while until there is none left.
      const full = Date.now() + 90_000;
      const told = () => [...clinic.acknowledged.answers.keys()].some((what) => what.includes('disk-full'));
      await until(() => told() || Date.now() > full, 100);
      const end = Date.now() + FULL_MS;
      while (Date.now() < end) {
        const look = await clinic.ready().then(
          async (a) => `${a.status} ${(await a.json()).code ?? ''}`.trim(),
          (e) => (e as Error).name,
        );
        seen[look] = (seen[look] ?? 0) + 1;
        await pause(250);
      }
      say(
        `full: answers ${JSON.stringify(Object.fromEntries(clinic.acknowledged.answers))}, readiness ${JSON.stringify(seen)}`,
      );
      await rm(filler);
      const room = Date.now();
      await until(
        () => clinic.isReady(),
        60,
        () => service.output,
      );
      say(`ready ${Date.now() - room} ms after there was room`);
    }
    const before = clinic.acknowledged.visits.length;
    await until(() => clinic.acknowledged.visits.length > before + 20, 60);
    await clinic.end();
    const figures = await clinic.account();
    await service.end('SIGTERM');
    if (!seen['503 disk-full']) clinic.faults.push('readiness never said that the disk is full');
    return {
      faults: clinic.faults,
      figures: { ready: seen, ...figures },
      answers: clinic.acknowledged.answers,
    };
  } finally {
    await clinic.close();
    spawnSync('umount', ['-l', disk]);
    await rm(disk, { recursive: true, force: true });
  }
};
