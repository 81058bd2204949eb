import type { JobData, JobName, JobRun, Store } from '../../store/contract.js';
import type { Clock } from '../clock.js';
import type { Jobs } from '../dependencies.js';

/** Puts work into the queue. Asked again while the same is still under way, it names that run instead. */
export function jobStarter(store: Store, clock: Clock): Jobs {
  const start = <N extends JobName>(
    kind: JobRun['kind'],
    name: N,
    data: (runId: string) => JobData[N],
    within = store,
  ) =>
    within.transaction(async (tx) => {
      const runId = await tx.jobRuns.begin(kind, clock.now());
      if (runId === null) return (await tx.jobRuns.latest(kind))[0].id;
      await tx.enqueue(name, data(runId));
      return runId;
    });
  return {
    startForecasts: (within) => start('forecasts', 'forecast-run', (runId) => ({ runId }), within),
    startRecallRun: (month) => start('recall', 'recall-run', (runId) => ({ runId, month: month ?? '' })),
    startImport: (importId, actor, within = store) =>
      within.transaction(async (tx) => {
        await tx.imports.checked(importId);
        await tx.imports.setStatus(importId, 'queued');
        const runId = (await tx.jobRuns.begin('import', clock.now()))!;
        await tx.enqueue('import', { runId, importId, actor: actor.name });
        await tx.audit.record(actor, 'import', 'import', { importId, runId });
        return runId;
      }),
  };
}
