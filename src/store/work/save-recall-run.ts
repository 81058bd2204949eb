import { randomUUID } from 'node:crypto';
import { stateInNewList } from '../../recall/carry-over.js';
import type { RecallEntry, WorkState } from '../../recall/contract.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { columnsOf } from '../record-of.js';
import { stillThere } from '../records/require-child.js';
import { type NewRecallRun, type RecallListName, systemActor } from '../shapes.js';
import { type EarlierEntry, earlierVisits } from './earlier-visits.js';

/** So many are written at once: a second's work would hold up whoever writes meanwhile. */
const CHUNK = 100;

interface NewEntry {
  readonly list: RecallListName;
  readonly entry: RecallEntry;
}

/**
 * Writes a list and its entries in the transaction it is given. What people did with the list before is carried over
 * with its note: a call made, an appointment, or that the family must be rung again and why.
 */
export async function saveRecallRun(
  tx: Database,
  id: string,
  run: NewRecallRun,
  entries: readonly NewEntry[],
): Promise<void> {
  const before = new Map((await earlierVisits(tx)).map((v) => [v.childId, v]));
  const { today, month, seed, summary, inputsHash, modelName, modelVersion } = run;
  await tx
    .insertInto('recall_runs')
    .values({
      id,
      today,
      month,
      seed,
      summary: JSON.stringify(summary),
      ...columnsOf({ inputsHash, modelName, modelVersion }),
    })
    .execute();
  const childIds: string[] = [];
  for (let i = 0; i < entries.length; i += CHUNK)
    childIds.push(...(await saveEntries(tx, id, entries.slice(i, i + CHUNK), i, before)));
  await writeAudit(tx, systemActor, 'plan', 'recall-run', { childIds, runId: id });
}

/** Entries of those who are under the clinic still, in their order from `first` on; gives who they are. */
async function saveEntries(
  tx: Database,
  run_id: string,
  entries: readonly NewEntry[],
  first: number,
  before: ReadonlyMap<string, EarlierEntry>,
): Promise<string[]> {
  const ids = await stillThere(
    tx,
    entries.map(({ entry }) => entry.childId),
    'active',
  );
  const kept = entries.flatMap(({ list, entry }, i) => {
    if (!ids.has(entry.childId)) return [];
    const was = before.get(entry.childId);
    const state = was ? stateInNewList(was, entry) : 'to-call';
    return [{ list, entry, position: first + i, id: randomUUID(), was, state }];
  });
  if (kept.length === 0) return [];
  await tx
    .insertInto('recall_entries')
    .values(
      kept.map(({ list, entry, position, id, was, state }) => ({
        list,
        id,
        run_id,
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
  const said = kept.flatMap(({ id, was, state }) => saidBefore(id, was, state));
  if (said.length > 0) await tx.insertInto('recall_state_changes').values(said).execute();
  return kept.map(({ entry }) => entry.childId);
}

/** The last thing said of a family, as the first row of its new entry; nothing where it says no more. */
function saidBefore(entryId: string, was: EarlierEntry | undefined, state: WorkState) {
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
