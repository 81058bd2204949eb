/**
 * People at work in a clinic of thousands: the service as it is started, its worker and the built-in database. They read
 * and write while every forecast is made anew, as on the night of a new day; each request is timed by its page.
 */
import { readFileSync } from 'node:fs';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { groupByChild, ungroup } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import type { Device } from '../../src/records/device.js';
import { ClinicAtWork } from '../operations/faults/clinic-at-work.js';
import { pause, processesOf } from '../operations/faults/folder-processes.js';
import { copiesOf } from './copies-of.js';
import { note } from './measure.js';

export interface LoadOptions {
  readonly children: number;
  readonly people: number;
  readonly seconds: number;
}

const TODAY = '2026-11-25';
/** Children of the demo clinic that are different; the others are copies of them. */
const DIFFERENT = 200;
/** Between two clicks. */
const THINKING_MS = 2000;
const WARM_LOOKS = 20;
const ENOUGH_READINGS = 8;

/** What people do, and how often of a hundred. */
const doings: readonly {
  readonly what: string;
  readonly share: number;
  readonly at: (id: string, device: string) => string;
}[] = [
  { what: 'child page', share: 30, at: (id) => `/children/${id}` },
  { what: 'recall list', share: 15, at: () => '/recall' },
  { what: 'today', share: 10, at: () => '/today' },
  { what: 'children found by name', share: 10, at: (id) => `/children?search=${id.slice(0, 3)}` },
  { what: 'overview', share: 10, at: () => '/overview' },
  { what: 'what-if page', share: 5, at: (id, device) => `/children/${id}/what-if?device=${device}` },
  { what: 'visit form', share: 5, at: (id) => `/children/${id}/visit` },
  { what: 'a reading written', share: 15, at: (id) => `/api/children/${id}/measurements` },
];

const of = (at: (id: string, device: string) => string, device: Device) => at(device.childId, device.id);

export async function benchLoad({ children, people, seconds }: LoadOptions): Promise<void> {
  const { caseload } = demoClinic({ children: Math.min(DIFFERENT, children), seed: 1, today: TODAY });
  const records = copiesOf(groupByChild(caseload), children);
  const clinic = await ClinicAtWork.open(
    { TODAY, WORKERS: '1', LOG_LEVEL: 'warn' },
    undefined,
    ungroup(records),
  );
  try {
    let service = await clinic.start('serve');
    const began = Date.now();
    await runEnded(clinic, await begin(clinic, '/api/recall-runs'));
    const first = (Date.now() - began) / 1000;
    note(
      `first list of ${children} children, one worker`,
      first,
      's',
      `${(children / first).toFixed(0)} a second`,
    );
    // Of whom every page has something to show.
    const seen = records
      .filter((r) => r.child.status === 'active' && r.measurements.length >= ENOUGH_READINGS)
      .flatMap((r) => r.devices.filter((d) => d.status === 'worn').slice(0, 1));
    for (const { what, at } of doings.filter((d) => !d.what.includes('written'))) {
      const times: number[] = [];
      for (let i = 0; i <= WARM_LOOKS; i++) times.push((await timed(clinic, what, of(at, seen[i % 5]))).ms);
      note(`${what}, nobody else there`, quantile(times.slice(1), 0.5), 'ms', 'median');
    }
    await service.end('SIGTERM');
    // A day later nothing holds any more.
    Object.assign(clinic.env, { TODAY: addDaysIso(TODAY, 1) });
    service = await clinic.start('serve');
    for (const { what, at } of doings) await timed(clinic, what, of(at, seen[0]));
    const night = await begin(clinic, '/api/recall-runs');
    const asked = await peopleAtWork(clinic, seen, people, seconds);
    const [{ status }] = await clinic.rows<{ status: string }>('select status from job_runs where id = $1', [
      night,
    ]);
    note(
      'memory of the web server after it',
      memoryOf(service.process.pid!),
      'MiB',
      `${processesOf(clinic.folder).length} processes in all`,
    );
    tell(asked, people, seconds, status);
    await service.end('SIGTERM');
  } finally {
    await clinic.close();
  }
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

async function begin(clinic: ClinicAtWork, path: string): Promise<string> {
  const { status, body } = await clinic.ask('POST', path, {});
  if (status !== 202) throw new Error(`${path} answered ${status}`);
  return body.jobRunId;
}

async function runEnded(clinic: ClinicAtWork, id: string): Promise<void> {
  for (;;) {
    const { body } = await clinic.ask('GET', `/api/jobs/${id}`);
    if (body.status === 'done') return;
    if (body.status === 'failed') throw new Error(`the run failed: ${body.detail}`);
    await pause(500);
  }
}

/** Resident, of one process. */
const memoryOf = (pid: number): number =>
  Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;

const quantile = (of: readonly number[], p: number) =>
  of.toSorted((a, b) => a - b)[Math.floor(p * (of.length - 1))];
