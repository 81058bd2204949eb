import { randomUUID } from 'node:crypto';
import type { RecallEntry, WorkState } from '../recall/contract.js';
import type { Database } from './connect.js';
import type { NewRecallRun, RecallListName } from './contract.js';

const CHUNK = 500;

/**
 * Writes a list and its entries in the transaction it is given. A child that people have already rung for the same
 * action and device keeps its state from the list before; 'done' does not carry over: a new need is a new call.
 */
export async function keepRecallRun(
  tx: Database,
  id: string,
  run: NewRecallRun,
  entries: readonly { readonly list: RecallListName; readonly entry: RecallEntry }[],
): Promise<void> {
  const before = await statesBefore(tx);
  await tx
    .insertInto('recall_runs')
    .values({
      id,
      today: run.today,
      month: run.month,
      summary: JSON.stringify(run.summary),
      inputs_hash: run.inputsHash,
      model_name: run.modelName,
      model_version: run.modelVersion,
      seed: run.seed,
    })
    .execute();
  const rows = entries.map(({ list, entry }, position) => ({
    list,
    id: randomUUID(),
    run_id: id,
    position,
    child_id: entry.childId,
    action: entry.action,
    overdue: entry.overdue,
    data: JSON.stringify(entry),
    state:
      entry.deviceIds.map((d) => before.get(keyOf(entry.childId, entry.action, d))).find((s) => s) ??
      ('to-call' as WorkState),
  }));
  const stillThere = await tx
    .selectFrom('children')
    .select('id')
    .where('status', '=', 'active')
    .forKeyShare()
    .execute();
  const ids = new Set(stillThere.map((c) => c.id));
  const kept = rows.filter((r) => ids.has(r.child_id));
  for (let i = 0; i < kept.length; i += CHUNK)
    await tx
      .insertInto('recall_entries')
      .values(kept.slice(i, i + CHUNK))
      .execute();
}

const keyOf = (childId: string, action: string, deviceId: string) => `${childId}\0${action}\0${deviceId}`;

async function statesBefore(tx: Database): Promise<Map<string, WorkState>> {
  const rows = await tx
    .selectFrom('recall_entries')
    .select(['child_id', 'action', 'data', 'state'])
    .where('run_id', '=', (q) => q.selectFrom('recall_runs').select('id').orderBy('seq', 'desc').limit(1))
    .where('state', 'not in', ['to-call', 'done'])
    .execute();
  return new Map(
    rows.flatMap((r) => r.data.deviceIds.map((d) => [keyOf(r.child_id, r.action, d), r.state] as const)),
  );
}
