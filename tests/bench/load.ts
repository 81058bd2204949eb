/**
 * People at work in a clinic of thousands: the service, its worker and the built-in database. They read
 * and write while the list of a new day is made, as on any night; each request is timed by its page.
 */
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { addDaysIso } from '../../src/records/dates.js';
import type { Device } from '../../src/records/device.js';
import type { ClinicAtWork } from '../operations/faults/clinic-at-work.js';
import { pause, processesOf } from '../operations/faults/folder-processes.js';
import { begin, clinicOfMany, firstList, runEnded, TODAY } from './clinic-of-many.js';
import { note } from './measure.js';

export interface LoadOptions {
  readonly children: number;
  readonly people: number;
  readonly seconds: number;
}

/** Between two clicks. */
const THINKING_MS = 2000;
const WARM_LOOKS = 20;
const SLOWEST_TOLD = 60;

/** What people do, and how often of a hundred. */
const doings: readonly {
  readonly what: string;
  readonly share: number;
  readonly at: (id: string, device: string) => string;
}[] = [
  { what: 'child page', share: 30, at: (id) => `/children/${id}` },
  { what: 'recall list', share: 15, at: () => '/recall' },
  { what: 'today', share: 10, at: () => '/today' },
  { what: 'children found by name', share: 10, at: (id) => `/children?text=${id.slice(0, 3)}` },
  { what: 'overview', share: 10, at: () => '/overview' },
  { what: 'what-if page', share: 5, at: (id, device) => `/children/${id}/what-if/next?device=${device}` },
  { what: 'visit form', share: 5, at: (id) => `/children/${id}/visit` },
  { what: 'a reading written', share: 15, at: (id) => `/api/children/${id}/measurements` },
];

const of = (at: (id: string, device: string) => string, device: Device) => at(device.childId, device.id);

export async function benchLoad({ children, people, seconds }: LoadOptions): Promise<void> {
  const { clinic, seen } = await clinicOfMany(children, 1);
  try {
    const service = await clinic.start('serve');
    await firstList(clinic, children);
    for (const { what, at } of doings.filter((d) => !d.what.includes('written'))) {
      const times: number[] = [];
      for (let i = 0; i <= WARM_LOOKS; i++) times.push((await timed(clinic, what, of(at, seen[i % 5]))).ms);
      note(`${what}, nobody else there`, quantile(times.slice(1), 0.5), 'ms', 'median');
    }
    await service.end('SIGTERM');
    await nightWithoutNews(clinic, children);
    await peopleBesideTheNight(clinic, seen, people, seconds);
  } finally {
    await clinic.close();
  }
}

/** People are at work already when the night's run begins: so long, untimed. */
const BEFORE_SECONDS = 30;

async function peopleBesideTheNight(
  clinic: ClinicAtWork,
  seen: readonly Device[],
  people: number,
  seconds: number,
): Promise<void> {
  const watched = join(clinic.folder, 'slow-requests.jsonl');
  Object.assign(clinic.env, {
    TODAY: addDaysIso(TODAY, 2),
    NODE_OPTIONS: `--import ${new URL('./watch-requests.mjs', import.meta.url)}`,
    WATCH_REQUESTS: watched,
  });
  const service = await clinic.start('serve');
  await peopleAtWork(clinic, seen, people, BEFORE_SECONDS);
  rmSync(watched, { force: true });
  const run = await begin(clinic, '/api/recall-runs');
  const asked = await peopleAtWork(clinic, seen, people, seconds);
  const [{ status }] = await clinic.rows<{ status: string }>('select status from job_runs where id = $1', [
    run,
  ]);
  note(
    'memory of the web server after it',
    memoryOf(service.process.pid!),
    'MiB',
    `${processesOf(clinic.folder).length} processes in all`,
  );
  tell(asked, people, seconds, status);
  tellSlow(watched);
  await service.end('SIGTERM');
}

/** The next night, when nobody has entered anything. */
async function nightWithoutNews(clinic: ClinicAtWork, children: number): Promise<void> {
  Object.assign(clinic.env, { TODAY: addDaysIso(TODAY, 1) });
  const service = await clinic.start('serve');
  const began = Date.now();
  await runEnded(clinic, await begin(clinic, '/api/recall-runs'));
  note(`the list of ${children} children the night after`, (Date.now() - began) / 1000, 's', 'without news');
  await service.end('SIGTERM');
}

interface Asked {
  readonly what: string;
  readonly ms: number;
  readonly status: number;
}

async function peopleAtWork(clinic: ClinicAtWork, seen: readonly Device[], people: number, seconds: number) {
  const asked: Asked[] = [];
  const end = Date.now() + seconds * 1000;
  const weighted = doings.flatMap((d) => Array.from({ length: d.share }, () => d));
  const person = async (k: number): Promise<void> => {
    await pause((THINKING_MS * k) / people);
    for (let n = k; Date.now() < end; n++) {
      const { what, at } = weighted[(n * 37 + k * 11) % weighted.length];
      asked.push(await timed(clinic, what, of(at, seen[(n * 7919 + k * 131) % seen.length])));
      await pause(THINKING_MS * (0.5 + ((n * 13) % 10) / 10));
    }
  };
  await Promise.all(Array.from({ length: people }, (_, k) => person(k)));
  return asked;
}

async function timed(clinic: ClinicAtWork, what: string, path: string): Promise<Asked> {
  const write = what.includes('written');
  const began = performance.now();
  const body = { measure: 'foot_length', side: 'left', value: 190, date: TODAY };
  const status = await fetch(`http://127.0.0.1:${clinic.port}${path}`, {
    method: write ? 'POST' : 'GET',
    redirect: 'manual',
    headers: {
      authorization: `Bearer ${clinic.tokens.clinician}`,
      ...(write ? { 'content-type': 'application/json' } : {}),
    },
    body: write ? JSON.stringify(body) : undefined,
  }).then(
    async (answer) => {
      await answer.arrayBuffer();
      return answer.status;
    },
    () => 0,
  );
  return { what, ms: performance.now() - began, status };
}

function tell(asked: readonly Asked[], people: number, seconds: number, night: string): void {
  const wrong = asked.filter((a) => a.status === 0 || a.status >= 300);
  const said = [...new Set(wrong.map((a) => `${a.what}: ${a.status}`))].join(', ');
  const ms = asked.map((a) => a.ms);
  const all = `${people} people for ${seconds} s beside the nightly run (${night} at the end)`;
  note(`requests of ${all}`, asked.length / seconds, 'a second', `${wrong.length} errors ${said}`.trim());
  note(
    'every request, 99th percentile',
    quantile(ms, 0.99),
    'ms',
    `median ${quantile(ms, 0.5).toFixed(0)} ms`,
  );
  for (const { what } of doings) {
    const times = asked.filter((a) => a.what === what).map((a) => a.ms);
    if (times.length > 0)
      note(
        `${what} among them, 99th percentile`,
        quantile(times, 0.99),
        'ms',
        `median ${quantile(times, 0.5).toFixed(0)} ms, ${times.length} times`,
      );
  }
}

interface SlowRequest {
  readonly at: number;
  readonly url: string;
  readonly ms: number;
  readonly pool: number;
  readonly query: number;
  readonly thread: number;
  readonly loop: number;
  readonly held: number;
  readonly gc: number;
  readonly slowest: string;
}

/** The slowest, with what each of them waited for. */
function tellSlow(file: string): void {
  if (!existsSync(file)) return;
  const slow: SlowRequest[] = readFileSync(file, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
  const first = Math.min(...slow.map((s) => s.at));
  console.log(
    `${slow.length} slow ones; ms in all: pool, queries, threads, longest and all waits of the loop, collector`,
  );
  for (const s of slow.toSorted((a, b) => b.ms - a.ms).slice(0, SLOWEST_TOLD)) {
    const waits = [s.pool, s.query, s.thread, s.loop, s.held, s.gc].map((x) => x.toFixed(0));
    console.log(
      `${((s.at - first) / 1000).toFixed(1)} s  ${s.ms} ms  ${waits.join(' ')}  ${s.url}  ${s.slowest}`,
    );
  }
}

/** Resident, of one process. */
const memoryOf = (pid: number): number =>
  Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;

const quantile = (of: readonly number[], p: number) =>
  of.toSorted((a, b) => a - b)[Math.floor(p * (of.length - 1))];
