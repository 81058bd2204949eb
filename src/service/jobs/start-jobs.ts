import type { JobRun, Store } from '../../store/contract.js';
import type { JobData, JobName } from '../../store/queue.js';
import type { Clock, Jobs } from '../dependencies.js';

/** Puts work into the queue. Asked again while the same is still under way, it names that run instead. */
export function jobStarter(store: Store, clock: Clock): Jobs {
  const start = <N extends JobName>(kind: JobRun['kind'], name: N, data: (runId: string) => JobData[N]) =>
    store.transaction(async (tx) => {
      const runId = await tx.jobRuns.begin(kind, clock.now());
      if (runId === null) return (await tx.jobRuns.latest(kind))[0].id;
      await tx.enqueue(name, data(runId));
      return runId;
    });
  return {
    startForecasts: () => start('forecasts', 'forecast-run', (runId) => ({ runId })),
    startRecallRun: (month) => start('recall', 'recall-run', (runId) => ({ runId, month })),
    startImport: (importId, actor) =>
      start('import', 'import', (runId) => ({ runId, importId, actor: actor.name })),
  };
}
