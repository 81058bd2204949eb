import { demoClinic } from '../../src/demo/demo-clinic.js';
import { groupByChild, ungroup } from '../../src/records/caseload.js';
import type { Device } from '../../src/records/device.js';
import { ClinicAtWork } from '../operations/faults/clinic-at-work.js';
import { pause } from '../operations/faults/folder-processes.js';
import { copiesOf } from './copies-of.js';
import { note } from './measure.js';

export const TODAY = '2026-11-25';
/** Children of the demo clinic that are different; the others are copies of them. */
const DIFFERENT = 200;
const ENOUGH_READINGS = 8;

/** A clinic on a data folder of its own, nothing forecast yet. */
export async function clinicOfMany(children: number, workers: number, inside?: string) {
  const { caseload } = demoClinic({ children: Math.min(DIFFERENT, children), seed: 1, today: TODAY });
  const records = copiesOf(groupByChild(caseload), children);
  const clinic = await ClinicAtWork.open(
    { TODAY, WORKERS: String(workers), LOG_LEVEL: 'warn' },
    inside,
    ungroup(records),
  );
  // Of whom every page has something to show.
  const seen: readonly Device[] = records
    .filter((r) => r.child.status === 'active' && r.measurements.length >= ENOUGH_READINGS)
    .flatMap((r) => r.devices.filter((d) => d.status === 'worn').slice(0, 1));
  return { clinic, seen };
}

/** Everybody forecast and the list made. */
export async function firstList(clinic: ClinicAtWork, children: number): Promise<void> {
  const began = Date.now();
  await runEnded(clinic, await begin(clinic, '/api/recall-runs'));
  const first = (Date.now() - began) / 1000;
  const { WORKERS } = clinic.env;
  note(
    `first list of ${children} children, ${WORKERS === '1' ? 'one worker' : `${WORKERS} workers`}`,
    first,
    's',
    `${(children / first).toFixed(0)} a second`,
  );
}

export async function begin(clinic: ClinicAtWork, path: string): Promise<string> {
  const { status, body } = await clinic.ask('POST', path, {});
  if (status !== 202) throw new Error(`${path} answered ${status}`);
  return body.jobRunId;
}

export async function runEnded(clinic: ClinicAtWork, id: string): Promise<void> {
  for (;;) {
    const { body } = await clinic.ask('GET', `/api/jobs/${id}`);
    if (body.status === 'done') return;
    if (body.status === 'failed') throw new Error(`the run failed: ${body.detail}`);
    await pause(500);
  }
}
