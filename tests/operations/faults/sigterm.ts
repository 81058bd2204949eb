import { ClinicAtWork } from './clinic-at-work.js';
import { pause, processesOf, until } from './folder-processes.js';
import type { Scenario } from './scenario.js';

const DEADLINE_MS = 10_000;

/** SIGTERM while visits are written and a list is made: all processes gone in 10 s, what was acknowledged there after. */
export const sigterm: Scenario = async (say, times = 2) => {
  const clinic = await ClinicAtWork.open({ WORKERS: '1' });
  const tookMs: number[] = [];
  try {
    clinic.begin(5);
    for (let n = 0; n < times; n++) {
      const service = await clinic.start('serve');
      await service.says(/worker ready/, 120);
      const writtenBefore = clinic.acknowledged.visits.length;
      // A list is under way then, and an import.
      await pause(1500 + 700 * n);
      const asked = Date.now();
      void service.end('SIGTERM');
      await until(() => processesOf(clinic.folder).length === 0, 30).catch(() => {});
      tookMs.push(Date.now() - asked);
      const left = processesOf(clinic.folder);
      if (left.length > 0) clinic.faults.push(`${left.length} processes were left 30 s after SIGTERM`);
      else if (tookMs[n] > DEADLINE_MS) clinic.faults.push(`gone after ${tookMs[n]} ms only`);
      if (clinic.acknowledged.visits.length === writtenBefore)
        clinic.faults.push('no visit was being written');
      say(`gone after ${tookMs[n]} ms`);
    }
    await clinic.start('serve');
    await pause(500);
    await clinic.end();
    const figures = await clinic.account();
    return { faults: clinic.faults, figures: { tookMs, ...figures }, answers: clinic.acknowledged.answers };
  } finally {
    await clinic.close();
  }
};
