import type { JobData, Store } from '../../store/contract.js';
import type { Clock } from '../clock.js';

/** Takes in what the dry run showed, whole or not at all; a second time does nothing. */
export async function importJob(
  store: Store,
  clock: Clock,
  { runId, importId, actor }: JobData['import'],
): Promise<void> {
  await store.transaction(async (tx) => {
    const found = await tx.imports.lock(importId);
    if (found.status !== 'queued' || !found.kept) {
      await tx.jobRuns.end(runId, 'done', 'taken in already', clock.now());
      return;
    }
    const added = await tx.imports.fresh(importId);
    const counts = await tx.caseload.write(tx.imports.rows(importId), `import ${importId}`, clock.today(), {
      userId: 'import',
      name: actor,
      role: 'system',
    });
    await tx.imports.committed(importId, added);
    const rows = counts.added + counts.changed + counts.unchanged;
    await tx.jobRuns.setTotal(runId, rows);
    await tx.jobRuns.partDone(runId, 0, rows);
    await tx.jobRuns.end(
      runId,
      'done',
      `${counts.added} added, ${counts.changed} changed, ${counts.unchanged} unchanged`,
      clock.now(),
    );
  });
}
