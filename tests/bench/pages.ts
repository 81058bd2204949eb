/**
 * What one request of each page costs when nobody else is there: CPU of the web server (charts' thread included) and of
 * the database, queries, rows and bytes read, bytes sent. `npm run bench -- pages 5000` makes the clinic first; with a folder
 * behind it the clinic is made there once and used again, and with a word behind that only the pages whose name holds it.
 */
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { buildService } from '../../src/app.js';
import { drawChartsAside } from '../../src/charts/draw-aside.js';
import { assessor } from '../../src/service/assessor.js';
import { clock } from '../../src/service/clock.js';
import { configuration } from '../../src/service/configuration.js';
import { jobStarter } from '../../src/service/jobs/start-jobs.js';
import { systemActor } from '../../src/store/contract.js';
import { startEmbeddedDatabase } from '../../src/store/embedded/embedded-database.js';
import { openStore } from '../../src/store/open-store.js';
import { familyOf, postmasterOf } from '../operations/faults/folder-processes.js';
import { begin, clinicOfMany, firstList, runEnded, TODAY } from './clinic-of-many.js';

const LOOKS = 20;
/** The kernel's clock ticks are hundredths of a second. */
const TICK_MS = 10;
const HOUR_MS = 3_600_000;

export async function benchPages(children: number, kept?: string, only = ''): Promise<void> {
  const folder =
    kept && existsSync(path.join(kept, 'data')) ? path.join(kept, 'data') : await made(children, kept);
  const database = await startEmbeddedDatabase(folder);
  const store = await openStore(database.url);
  const config = configuration({ TODAY, LOG_LEVEL: 'error', DATA_DIR: folder, RATE_LIMIT: '1000000' });
  const time = clock(config);
  const assess = assessor(store, time);
  const app = await buildService({
    config,
    store,
    clock: time,
    jobs: jobStarter(store, time),
    assessor: assess,
    assess: assess.assess,
    demoSignIns: [],
  });
  const endDrawing = drawChartsAside();
  const actor = { ...systemActor, role: 'clinician' as const };
  const user = await store.users.create(
    { name: `looks-${Date.now()}`, role: 'clinician', password: 'a long password' },
    systemActor,
  );
  const token = await store.accessTokens.create(user.id, new Date(Date.now() + HOUR_MS));
  const { items } = await store.children.search({ sort: 'name' }, { limit: 200 }, actor);
  const ids = items.filter((c) => c.devicesInUse > 0 && c.lastVisit !== null).map((c) => c.id);
  const devices = new Map(items.map((c) => [c.id, c.soonest?.deviceId ?? '']));
  const pages: Readonly<Record<string, (id: string) => string>> = {
    'child page': (id) => `/children/${id}`,
    'child page of the same child': () => `/children/${ids[0]}`,
    'recall list': () => '/recall',
    'recall, those found by name': (id) => `/recall?text=${id.slice(0, 3)}`,
    today: () => '/today',
    children: () => '/children',
    'children found by name': (id) => `/children?text=${id.slice(0, 3)}`,
    overview: () => '/overview',
    'what-if page': (id) => `/children/${id}/what-if/next?device=${devices.get(id)}`,
    'visit form': (id) => `/children/${id}/visit`,
    'family sheet': (id) => `/children/${id}/family`,
    capacity: () => '/capacity',
    'fit rules': () => '/fit-rules',
  };
  console.log(
    'page, of each request:                 wall ms  CPU ms  database CPU ms  queries  rows  kB read  kB sent',
  );
  try {
    for (const [what, at] of Object.entries(pages).filter(([name]) => name.includes(only))) {
      const ask = async (k: number) => {
        const answer = await app.inject({
          url: at(ids[k % ids.length]),
          headers: { authorization: `Bearer ${token}` },
        });
        if (answer.statusCode >= 400)
          throw new Error(`${what} answered ${answer.statusCode}: ${answer.body.slice(0, 300)}`);
        return answer.rawPayload.length;
      };
      await ask(0);
      await ask(1);
      const before = { cpu: process.cpuUsage(), database: await cpuOf(folder), ...counted };
      const began = performance.now();
      let sent = 0;
      for (let k = 2; k < LOOKS + 2; k++) sent += await ask(k);
      const wall = performance.now() - began;
      const used = process.cpuUsage(before.cpu);
      const figures = [
        wall,
        (used.user + used.system) / 1000,
        (await cpuOf(folder)) - before.database,
        counted.queries - before.queries,
        counted.rows - before.rows,
        (counted.bytes - before.bytes) / 1024,
        sent / 1024,
      ];
      console.log(what.padEnd(36), ...figures.map((f) => (f / LOOKS).toFixed(1).padStart(9)));
    }
  } finally {
    await app.close();
    await endDrawing();
    await store.close(1);
    await database.stop();
  }
}

async function made(children: number, inside?: string): Promise<string> {
  const { clinic } = await clinicOfMany(children, 2, inside);
  const service = await clinic.start('serve');
  await firstList(clinic, children);
  // A second one, so that there is one before it.
  await runEnded(clinic, await begin(clinic, '/api/recall-runs'));
  await service.end('SIGTERM');
  return clinic.folder;
}

const counted = { queries: 0, rows: 0, bytes: 0 };
type Asked = { readonly connection: { readonly stream: { readonly bytesRead: number } } };
const plain = pg.Client.prototype.query as (
  this: Asked,
  ...given: unknown[]
) => Promise<pg.QueryResult> | undefined;
pg.Client.prototype.query = function (this: pg.Client & Asked, ...given: unknown[]) {
  const before = this.connection.stream.bytesRead;
  const answer = plain.apply(this, given);
  void answer?.then?.(
    ({ rows }) => {
      counted.queries += 1;
      counted.rows += rows?.length ?? 0;
      counted.bytes += this.connection.stream.bytesRead - before;
    },
    () => {},
  );
  return answer;
} as never;

/** Of every process of the database on this folder and those that have ended. */
async function cpuOf(folder: string): Promise<number> {
  const server = await postmasterOf(folder);
  const ticks = (pid: number) => {
    try {
      const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
        .replace(/^.*\) /, '')
        .split(' ');
      return fields.slice(11, 15).reduce((sum, n) => sum + Number(n), 0);
    } catch {
      return 0;
    }
  };
  return server === null ? 0 : familyOf(server).reduce((sum, pid) => sum + TICK_MS * ticks(pid), 0);
}
