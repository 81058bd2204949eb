import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import pg from 'pg';
import type { Caseload } from '../../../src/records/caseload.js';
import { systemActor } from '../../../src/store/contract.js';
import { startEmbeddedDatabase } from '../../../src/store/embedded/embedded-database.js';
import { findEmbeddedDatabase } from '../../../src/store/embedded/find-embedded-database.js';
import { openStore } from '../../../src/store/open-store.js';
import { exampleCaseload } from '../../store/example-children.js';
import { Running } from '../running-service.js';
import {
  type Acknowledged,
  type Ask,
  askUntilAnswered,
  enterVisits,
  IMPORT_CHILDREN,
  importAgainAndAgain,
  makeLists,
  VISITED,
} from './clients.js';
import { freePort, pause, processesOf, until } from './folder-processes.js';

const TODAY = '2026-02-01';

export type Environment = Record<string, string>;

const DAYS_MS = 86_400_000;
const saysReady = { serve: /doorpost is at/, worker: /worker ready/ };

function oneToBreak(): Partial<Caseload> {
  const planned = exampleCaseload(3, 'r');
  const away = exampleCaseload(VISITED).children.map((c) => ({ ...c, status: 'moved-away' as const }));
  return { ...planned, children: [...planned.children, ...away] };
}

/**
 * A clinic on a data folder of its own, with real fsync: three children to plan for, thirty who only collect visits, so
 * that a list takes a moment. Whoever writes counts what was acknowledged; `account` holds that against the rows.
 */
export class ClinicAtWork {
  readonly faults: string[] = [];
  readonly acknowledged: Acknowledged = { visits: [], imports: [], lists: new Set(), answers: new Map() };
  private readonly stop = { now: false };
  private work: Promise<unknown> = Promise.resolve();
  private constructor(
    readonly folder: string,
    readonly port: number,
    readonly env: Environment,
    readonly tokens: { readonly clinician: string; readonly administrator: string },
    readonly ask: Ask,
  ) {}

  /** `inside`: a folder to put the data folder in. */
  static async open(more: Environment = {}, inside?: string, caseload = oneToBreak()): Promise<ClinicAtWork> {
    const outer = inside ?? (await mkdtemp(path.join(tmpdir(), 'doorpost-faults-')));
    await chmod(outer, 0o755);
    const folder = path.join(outer, 'data');
    const port = await freePort();
    const database = await startEmbeddedDatabase(folder);
    const store = await openStore(database.url);
    await store.caseload.write(caseload, 'test', more.TODAY ?? TODAY, systemActor);
    const token = async (role: 'clinician' | 'administrator') => {
      const user = await store.users.create({ name: role, role, password: 'a long password' }, systemActor);
      return store.accessTokens.create(user.id, new Date(Date.now() + 5 * DAYS_MS));
    };
    const tokens = { clinician: await token('clinician'), administrator: await token('administrator') };
    await store.close(1);
    await database.stop();
    const env = {
      DATA_DIR: folder,
      PORT: String(port),
      WORKERS: '0',
      DEMO: 'off',
      TODAY,
      RATE_LIMIT: '1000000',
      JOB_LEASE_SECONDS: '8',
      JOB_POLL_SECONDS: '0.5',
      LOG_LEVEL: 'info',
      ...more,
    };
    const stop = { now: false };
    const answers = new Map<string, number>();
    const clinic = new ClinicAtWork(folder, port, env, tokens, askUntilAnswered(port, tokens, answers, stop));
    Object.assign(clinic, { stop, acknowledged: { ...clinic.acknowledged, answers } });
    return clinic;
  }

  async start(kind: 'serve' | 'worker', more: Environment = {}): Promise<Running> {
    const running = Running.start(kind, { ...this.env, ...more });
    await running.says(saysReady[kind], 300);
    return running;
  }

  /** Visits, imports and lists begin. */
  begin(everyMs = 20): void {
    const { ask, acknowledged, stop } = this;
    const look = (prefix: string) => this.importedChildren(prefix).catch(() => null);
    this.work = Promise.all([
      enterVisits(ask, acknowledged, stop, everyMs),
      importAgainAndAgain(ask, acknowledged, stop, this.faults, look),
      makeLists(ask, acknowledged, stop),
    ]);
  }

  /** Nobody asks any more. */
  async end(): Promise<void> {
    this.stop.now = true;
    await this.work;
  }

  ready(): Promise<Response> {
    return fetch(`http://127.0.0.1:${this.port}/ready`, { signal: AbortSignal.timeout(20_000) });
  }

  async isReady(): Promise<boolean> {
    const { answers } = this.acknowledged;
    const look = await this.ready().then(
      async (answer) => `ready: ${answer.status} ${(await answer.json()).code ?? ''}`.trim(),
      (error) => `ready: ${error.cause?.code ?? error.name}`,
    );
    answers.set(look, (answers.get(look) ?? 0) + 1);
    return look === 'ready: 200';
  }

  async rows<R extends pg.QueryResultRow>(sql: string, values: unknown[] = []): Promise<R[]> {
    const url = this.env.DATABASE_URL ?? (await findEmbeddedDatabase(this.folder));
    if (!url) throw new Error('the database is away');
    const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 5000 });
    client.on('error', () => {});
    await client.connect();
    try {
      return (await client.query<R>(sql, values)).rows;
    } finally {
      await client.end().catch(() => {});
    }
  }

  /** With service and a worker running: every job has ended, every acknowledged row is there once, nothing is half. */
  async account(): Promise<Record<string, number>> {
    const { visits, imports, lists } = this.acknowledged;
    const open = () =>
      this.rows<{ n: number }>(
        `select count(*)::int as n from job_runs where status in ('queued', 'running')`,
      ).catch(() => [{ n: 1 }]);
    const asked = Date.now();
    for (;;) {
      if ((await open())[0].n === 0) break;
      if (Date.now() - asked > 180_000) {
        this.faults.push('jobs were left undone after 180 s');
        break;
      }
      await pause(500);
    }
    const stored = await this.rows<{ entered: string; n: number }>(
      `select entered, count(*)::int as n from measurements where entered like 'kill-%' group by entered`,
    );
    for (const { n } of stored) if (n > 1) this.faults.push(`a visit was stored ${n} times`);
    const there = new Set(stored.map((r) => r.entered));
    for (const mark of visits) if (!there.has(mark)) this.faults.push('an acknowledged visit is gone');
    for (const prefix of imports) {
      const n = await this.importedChildren(prefix);
      if (n !== IMPORT_CHILDREN)
        this.faults.push(`an acknowledged import has ${n} of ${IMPORT_CHILDREN} children`);
    }
    const runs = await this.rows<{ id: string; status: string }>(
      `select id, status from job_runs where kind = 'recall'`,
    );
    for (const id of lists) {
      const status = runs.find((r) => r.id === id)?.status;
      if (status !== 'done') this.faults.push(`an acknowledged list run is ${status ?? 'gone'}`);
    }
    const [{ n: kept }] = await this.rows<{ n: number }>('select count(*)::int as n from recall_runs');
    const done = runs.filter((r) => r.status === 'done').length;
    if (kept !== done) this.faults.push(`${done} list runs done, ${kept} lists kept`);
    return {
      visitsAcknowledged: visits.length,
      visitsStored: stored.length,
      importsAcknowledged: imports.length,
      listsAcknowledged: lists.size,
      secondsUntilJobsEnded: Math.round((Date.now() - asked) / 1000),
    };
  }

  /** Ends whatever still runs on the folder, and the folder. */
  async close(): Promise<void> {
    this.stop.now = true;
    for (const pid of processesOf(this.folder)) {
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // It has ended meanwhile.
      }
    }
    await until(() => processesOf(this.folder).length === 0, 10).catch(() => {});
    await rm(path.dirname(this.folder), { recursive: true, force: true }).catch(() => {});
  }

  private async importedChildren(prefix: string): Promise<number> {
    const [{ n }] = await this.rows<{ n: number }>(
      'select count(*)::int as n from children where id like $1',
      [`${prefix}%`],
    );
    return n;
  }
}
