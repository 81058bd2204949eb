import { parentPort, workerData } from 'node:worker_threads';
import type { RecallPolicy } from '../study/simulate/contract.js';
import { policyRunner } from './simulate-policy.js';

/** Lives through the policies handed over, in the world it was started with. */
const run = policyRunner(workerData);

parentPort?.on('message', async (policy: RecallPolicy) => parentPort?.postMessage(await run(policy)));
