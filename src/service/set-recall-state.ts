import type { IsoDate } from '../records/dates.js';
import type { Actor, RecallRow, Store } from '../store/contract.js';

type Change = Parameters<Store['recall']['setState']>[1];

/** Says how the work with a family stands; a family that moved away takes the child off every list at once. */
export async function setRecallState(
  tx: Store,
  entryId: string,
  change: Change,
  expected: number | null,
  today: IsoDate,
  actor: Actor,
): Promise<RecallRow> {
  const row = await tx.recall.setState(entryId, change, expected, actor);
  if (change.state === 'moved-away')
    await tx.children.change(row.childId, { status: 'moved-away' }, today, null, actor);
  return row;
}
