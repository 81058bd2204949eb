import { randomUUID } from 'node:crypto';
import { createServer } from 'node:net';
import pg from 'pg';
import { type Store, systemActor } from '../../src/store/contract.js';
import { openStore } from '../../src/store/open-store.js';
import { testDatabase } from '../database/test-database.js';
import { exampleCaseload } from '../store/example-children.js';
import { Running } from './running-service.js';

const TODAY = '2026-02-01';
const IMPORT_CHILDREN = 40;
const VISITED = 30;

export interface KillReport {
  readonly kills: { readonly server: number; readonly worker: number };
  readonly visitsAcknowledged: number;
  readonly importsAcknowledged: number;
  readonly recallRunsAcknowledged: number;
  /** Everything that should not be; empty when nothing was lost, doubled or halved. */
  readonly faults: readonly string[];
}

/**
 * Kills the server and two workers with SIGKILL, `kills` times in all, while visits, imports and recall runs go on.
 * Clients repeat a request whose answer was lost, with the same Idempotency-Key. Afterwards every acknowledged row must
 * be there once, every import whole or absent at every look, and every acknowledged job done once.
 */
export async function killMany(kills: number, say: (line: string) => void = () => {}): Promise<KillReport> {
  const database = await testDatabase();
  const store = await openStore(database.url);
  const watcher = new pg.Client({ connectionString: database.url });
  await watcher.connect();
  // Three children to plan for, and thirty who moved away and only collect readings: so a recall run is short.
  await store.caseload.write(exampleCaseload(3, 'r'), 'test', systemActor);
  const { children } = exampleCaseload(VISITED);
  const away = children.map((c) => ({ ...c, status: 'moved-away' as const }));
  await store.caseload.write({ children: away }, 'test', systemActor);
  const port = await freePort();
  const env = {
    DATABASE_URL: database.url,
    PORT: String(port),
    WORKERS: '0',
    DEMO: 'off',
    TODAY,
    RATE_LIMIT: '1000000',
    JOB_EXPIRE_SECONDS: '12',
    JOB_POLL_SECONDS: '0.5',
  };
  const faults: string[] = [];
  const stopAsking = { now: false };
  const client = await apiClient(store, port);
  const work = {
    visits: visitWork(client, stopAsking),
    imports: importWork(client, watcher, stopAsking, faults),
    recall: recallWork(client, stopAsking),
  };

  const victims = (['serve', 'worker', 'worker'] as const).map((kind) => ({
    kind,
    running: null as Running | null,
  }));
  const ready = { serve: /doorpost is at/, worker: /worker ready/ };
  const count = { server: 0, worker: 0 };
  const raise = async (victim: (typeof victims)[number]) => {
    victim.running = Running.start(victim.kind, env);
    await victim.running.says(ready[victim.kind], 120);
  };
  await Promise.all(victims.map(raise));
  let [done, ended] = [0, 0];
  // Each process lives a moment of random length (seeded) after it is ready, then dies and is raised again.
  const life = randomLives(7);
  await Promise.all(
    victims.map(async (victim) => {
      while (done < kills) {
        done++;
        await new Promise((r) => setTimeout(r, life()));
        await victim.running?.kill9();
        count[victim.kind === 'serve' ? 'server' : 'worker']++;
        if (++ended % 10 === 0) say(`${ended} of ${kills} kills`);
        await raise(victim);
      }
    }),
  );
  stopAsking.now = true;
  const [visits, imports, recalls] = await Promise.all([work.visits, work.imports, work.recall]);
  await allJobsEnded(store, recalls, faults);

  const { rows: doubled } = await watcher.query(
    `select entered, count(*)::int as n from measurements where entered like 'kill-%' group by entered having count(*) > 1`,
  );
  for (const row of doubled) faults.push(`a visit was stored ${row.n} times`);
  const { rows: stored } = await watcher.query(
    `select entered from measurements where entered like 'kill-%'`,
  );
  const there = new Set(stored.map((r) => r.entered));
  for (const mark of visits) if (!there.has(mark)) faults.push('an acknowledged visit is gone');
  for (const prefix of imports) {
    const n = await importedChildren(watcher, prefix);
    if (n !== IMPORT_CHILDREN) faults.push(`an acknowledged import has ${n} of ${IMPORT_CHILDREN} children`);
  }
  const { rows: lists } = await watcher.query('select count(*)::int as n from recall_runs');
  const { rows: runs } = await watcher.query(
    `select count(*)::int as n from job_runs where kind = 'recall' and status = 'done'`,
  );
  if (lists[0].n !== runs[0].n) faults.push(`${runs[0].n} recall jobs done, ${lists[0].n} lists kept`);
  for (const id of recalls) {
    const { status, done, total, message } = await store.jobRuns.get(id);
    if (status !== 'done')
      faults.push(`an acknowledged recall run is ${status}, ${done} of ${total}: ${message}`);
  }

  await Promise.all(victims.map((v) => v.running?.end('SIGTERM')));
  await watcher.end();
  await store.close();
  await database.stop();
  return {
    kills: count,
    visitsAcknowledged: visits.length,
    importsAcknowledged: imports.length,
    recallRunsAcknowledged: recalls.length,
    faults,
  };
}

type Client = (
  method: string,
  path: string,
  body?: unknown,
  key?: string,
) => Promise<{ status: number; body: Record<string, string> }>;

/** Asks until it is answered: a lost connection or a 503 is asked again. */
async function apiClient(store: Store, port: number): Promise<Client> {
  const users = [];
  for (const role of ['clinician', 'administrator'] as const)
    users.push(await store.users.create({ name: role, role, password: 'a long password' }, systemActor));
  const expires = new Date(Date.now() + 3_600_000);
  const tokens = await Promise.all(users.map((u) => store.accessTokens.create(u.id, expires)));
  return async (method, path, body, key) => {
    for (;;) {
      try {
        const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
          method,
          headers: {
            authorization: `Bearer ${tokens[path.startsWith('/api/imports') ? 1 : 0]}`,
            ...(body === undefined ? {} : { 'content-type': 'application/json' }),
            ...(key ? { 'idempotency-key': key } : {}),
          },
          body: body === undefined ? undefined : JSON.stringify(body),
          signal: AbortSignal.timeout(20_000),
        });
        if (answer.status < 500)
          return { status: answer.status, body: (await answer.json()) as Record<string, string> };
      } catch {
        // The server is dead or dying: ask again.
      }
      await new Promise((r) => setTimeout(r, 100));
    }
  };
}

async function visitWork(client: Client, stop: { now: boolean }): Promise<string[]> {
  const acknowledged: string[] = [];
  while (!stop.now) {
    const mark = `kill-${randomUUID()}`;
    const { status } = await client(
      'POST',
      `/api/children/c${acknowledged.length % VISITED}/measurements`,
      { measure: 'foot_length', side: 'left', value: 190, date: '2026-01-15', entered: mark },
      mark,
    );
    if (status === 201) acknowledged.push(mark);
    await new Promise((r) => setTimeout(r, 20));
  }
  return acknowledged;
}

async function importWork(
  client: Client,
  watcher: pg.Client,
  stop: { now: boolean },
  faults: string[],
): Promise<string[]> {
  const acknowledged: string[] = [];
  for (let i = 0; !stop.now; i++) {
    const prefix = `imp${i}x`;
    const children = Array.from(
      { length: IMPORT_CHILDREN },
      (_, k) => `${prefix}${k},2019-01-02,female,moved-away`,
    );
    const text = ['id,birth_date,sex,status', ...children].join('\n');
    const dry = await client('POST', '/api/imports', { files: [{ name: 'children.csv', text }] });
    const commit = await client('POST', `/api/imports/${dry.body.id}/commit`, {}, prefix);
    if (commit.status !== 202) {
      faults.push(`commit of an import answered ${commit.status}`);
      continue;
    }
    acknowledged.push(prefix);
    for (let look = 0; look < 15 && !stop.now; look++) {
      const n = await importedChildren(watcher, prefix);
      if (n !== 0 && n !== IMPORT_CHILDREN)
        faults.push(`half an import was seen: ${n} of ${IMPORT_CHILDREN}`);
      if (n === IMPORT_CHILDREN) break;
      await new Promise((r) => setTimeout(r, 100));
    }
  }
  return acknowledged;
}

async function recallWork(client: Client, stop: { now: boolean }): Promise<string[]> {
  const acknowledged = new Set<string>();
  while (!stop.now) {
    const { body } = await client('POST', '/api/recall-runs', {});
    if (body.jobRunId) acknowledged.add(body.jobRunId);
    await new Promise((r) => setTimeout(r, 500));
  }
  return [...acknowledged];
}

async function importedChildren(watcher: pg.Client, prefix: string): Promise<number> {
  const { rows } = await watcher.query('select count(*)::int as n from children where id like $1', [
    `${prefix}%`,
  ]);
  return rows[0].n;
}

/** The newest jobs and the recall runs, however many jobs came after them. */
async function allJobsEnded(store: Store, recalls: readonly string[], faults: string[]): Promise<void> {
  for (let i = 0; i < 900; i++) {
    const runs = [
      ...(await store.jobRuns.latest()),
      ...(await Promise.all(recalls.map((id) => store.jobRuns.get(id)))),
    ];
    if (runs.every((r) => r.status === 'done' || r.status === 'failed')) return;
    await new Promise((r) => setTimeout(r, 100));
  }
  faults.push('jobs were left undone');
}

function randomLives(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return 50 + (state % 1500);
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}
