import { randomUUID } from 'node:crypto';
import { stateInNewList } from '../../recall/carry-over.js';
import type { RecallEntry } from '../../recall/contract.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { type NewRecallRun, type RecallListName, systemActor } from '../contract.js';
import { earlierVisits } from './earlier-visits.js';

const CHUNK = 500;

/**
 * Writes a list and its entries in the transaction it is given. What people did with the list before is carried over
 * with its note: a call made, an appointment, or that the family must be rung again and why.
 */
export async function keepRecallRun(
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
    const said = chunk.flatMap(({ id: entryId, was, state }) =>
      was?.last &&
      was.state !== 'done' &&
      !(was.state === 'to-call' && ['', 'undone'].includes(was.last.note))
        ? [
            {
              entry_id: entryId,
              child_id: was.childId,
              // Undone in the new list, it is a call to make, or the word it was.
              from_state: state === 'to-call' ? was.state : ('to-call' as const),
              from_appointment: state === 'to-call' ? was.appointment : null,
              to_state: state,
              note: was.last.note,
              by_name: was.last.by,
              at: was.last.at,
            },
          ]
        : [],
    );
    if (said.length > 0) await tx.insertInto('recall_state_changes').values(said).execute();
  }
}
