import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import {
  type EmbeddedDatabase,
  startEmbeddedDatabase,
} from '../../../src/store/embedded/embedded-database.js';
import { ClinicAtWork } from './clinic-at-work.js';
import { familyOf, pause, postmasterOf, until } from './folder-processes.js';
import type { Scenario } from './scenario.js';

const AWAY_MS = 12_000;

/**
 * The database of DATABASE_URL is stopped and started again, then frozen (as a broken network looks) and thawed. The
 * service lives on, says so, and writes again without a restart.
 */
export const databaseAway: Scenario = async (say) => {
  const clinic = await ClinicAtWork.open({ WORKERS: '1' });
  const { folder } = clinic;
  let database: EmbeddedDatabase = await startEmbeddedDatabase(folder);
  const seen: Record<string, string[]> = {};
  try {
    const elsewhere = path.join(folder, '..', 'empty');
    await mkdir(elsewhere, { recursive: true });
    Object.assign(clinic.env, { DATABASE_URL: database.url, DATA_DIR: elsewhere });
    const service = await clinic.start('serve');
    await service.says(/worker ready/, 120);
    clinic.begin();
    const whileAway = async (how: string, goes: () => Promise<unknown>, comes: () => Promise<unknown>) => {
      await pause(1500);
      await goes();
      const looks: string[] = [];
      const back = Date.now() + AWAY_MS;
      while (Date.now() < back) {
        const asked = Date.now();
        const look = await clinic.ready().then(
          async (a) => `${a.status} ${(await a.json()).code ?? ''}`.trim(),
          (e) => (e as Error).name,
        );
        const ms = Date.now() - asked;
        if (ms > 6000) clinic.faults.push(`${how}: readiness took ${ms} ms to say ${look}`);
        looks.push(look);
        await pause(250);
      }
      await comes();
      seen[how] = [...new Set(looks)];
      say(`${how}: readiness said ${seen[how].join(', ')}`);
      // The first look may still be from before.
      if (looks.slice(1).some((look) => look !== '503 database-unavailable'))
        clinic.faults.push(`${how}: readiness said ${seen[how].join(', ')}`);
      const before = clinic.acknowledged.visits.length;
      const since = Date.now();
      await until(() => clinic.isReady(), 60);
      await until(() => clinic.acknowledged.visits.length > before + 20, 60);
      say(`${how}: writing again ${Date.now() - since} ms after it came back`);
    };
    await whileAway(
      'stopped',
      () => database.stop(),
      async () => {
        database = await startEmbeddedDatabase(folder);
      },
    );
    const frozen: number[] = [];
    const signal = (name: NodeJS.Signals) => {
      for (const pid of frozen) process.kill(pid, name);
    };
    await whileAway(
      'frozen',
      async () => {
        const server = await postmasterOf(folder);
        if (server !== null) frozen.push(...familyOf(server));
        signal('SIGSTOP');
      },
      async () => signal('SIGCONT'),
    );
    await clinic.end();
    const figures = await clinic.account();
    await service.end('SIGTERM');
    return {
      faults: clinic.faults,
      figures: { ready: seen, ...figures },
      answers: clinic.acknowledged.answers,
    };
  } finally {
    await database.stop(2);
    await clinic.close();
  }
};
