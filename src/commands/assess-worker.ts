import { parentPort } from 'node:worker_threads';
import type { ChildRecord } from '../records/caseload.js';
import { type AssessSettings, answering } from './assess-in-parallel.js';

/** Assesses the children handed over, by the settings handed over before them. */
let answer: ReturnType<typeof answering>;

parentPort?.on('message', (asked: AssessSettings | readonly ChildRecord[]) => {
  if ('rules' in asked) answer = answering(asked);
  else parentPort?.postMessage(asked.map(answer));
});
