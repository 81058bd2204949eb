import { randomUUID } from 'node:crypto';
import { stateInNewList } from '../../recall/carry-over.js';
import type { RecallEntry, WorkState } from '../../recall/contract.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { type NewRecallRun, type RecallListName, systemActor } from '../shapes.js';
import { earlierVisits } from './earlier-visits.js';

const CHUNK = 500;

/**
 * Writes a list and its entries in the transaction it is given. What people did with the list before is carried over
 * with its note: a call made, an appointment, or that the family must be rung again and why.
 */
export async function saveRecallRun(
  tx: Database,
  id: string,
  run: NewRecallRun,
  entries: readonly { readonly list: RecallListName; readonly entry: RecallEntry }[],
): Promise<void> {
  const before = new Map((await earlierVisits(tx)).map((v) => [v.childId, v]));
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
  const stillThere = await tx
    .selectFrom('children')
    .select('id')
    .where('status', '=', 'active')
    .forKeyShare()
    .execute();
  const ids = new Set(stillThere.map((c) => c.id));
  const kept = entries.flatMap(({ list, entry }, position) => {
    if (!ids.has(entry.childId)) return [];
    const was = before.get(entry.childId);
    const state = was ? stateInNewList(was, entry) : 'to-call';
    return [{ list, entry, position, id: randomUUID(), was, state }];
  });
  await writeAudit(tx, systemActor, 'plan', 'recall-run', {
    childIds: kept.map(({ entry }) => entry.childId),
    runId: id,
  });
  for (let i = 0; i < kept.length; i += CHUNK) {
    const chunk = kept.slice(i, i + CHUNK);
    await tx
      .insertInto('recall_entries')
      .values(
        chunk.map(({ list, entry, position, id: entryId, was, state }) => ({
          list,
          id: entryId,
          run_id: id,
          position,
          child_id: entry.childId,
          action: entry.action,
          overdue: entry.late,
          data: JSON.stringify(entry),
          state,
          appointment: state === 'to-call' ? null : (was?.appointment ?? null),
        })),
      )
      .execute();
    const said = chunk.flatMap(({ id: entryId, was, state }) => saidBefore(entryId, was, state));
    if (said.length > 0) await tx.insertInto('recall_state_changes').values(said).execute();
  }
}

type Before = Awaited<ReturnType<typeof earlierVisits>>[number];

/** The last thing said of a family, as the first row of its new entry; nothing where it says no more. */
function saidBefore(entryId: string, was: Before | undefined, state: WorkState) {
  const last = was?.last;
  if (!last || was.state === 'done') return [];
  if (was.state === 'to-call' && ['', 'undone'].includes(last.note)) return [];
  // Undone in the new list, it is a call to make, or the word it was.
  const isAgainToCall = state === 'to-call';
  return [
    {
      entry_id: entryId,
      child_id: was.childId,
      from_state: isAgainToCall ? was.state : ('to-call' as const),
      from_appointment: isAgainToCall ? was.appointment : null,
      to_state: state,
      note: last.note,
      by_name: last.by,
      at: last.at,
    },
  ];
}
