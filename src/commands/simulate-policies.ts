import { Worker } from 'node:worker_threads';
import type { RecallPolicy } from '../study/simulate/contract.js';
import type { PolicySummary } from '../study/simulate/summarise-policies.js';
import type { SimulationAsked } from './simulate-policy.js';

const THREADS = 2;

/** Every policy's summary in the order of the policies, two at a time; the same whichever thread gives it. */
export async function runPolicies(
  policies: readonly RecallPolicy[],
  asked: SimulationAsked,
  onProgress: (done: number) => void,
): Promise<PolicySummary[]> {
  const summaries: PolicySummary[] = new Array(policies.length);
  // The forecasts take longest and are begun first.
  const order = policies.map((_, k) => k).reverse();
  let [next, done] = [0, 0];
  const live = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const thread = new Worker(new URL('./simulate-worker.mjs', import.meta.url), { workerData: asked });
      let mine = -1;
      const give = () => {
        mine = order[next++] ?? -1;
        if (mine >= 0) thread.postMessage(policies[mine]);
        else thread.terminate().then(() => resolve(), reject);
      };
      thread.on('error', reject);
      thread.on('message', (summary: PolicySummary) => {
        summaries[mine] = summary;
        onProgress(++done);
        give();
      });
      give();
    });
  await Promise.all(Array.from({ length: THREADS }, live));
  return summaries;
}
