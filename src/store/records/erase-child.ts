import { sql } from 'kysely';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { Actor } from '../shapes.js';
import { deleteChild } from './delete-child.js';
import { requireChild } from './require-child.js';

const NO_WORDS = { refused: [], doubtful: [], notices: [], questions: [], columns: [] };

/**
 * Removes one child for good and leaves a tombstone without any detail. The audit trail stays. Pending imports and
 * stored answers that may carry the record go too. Must run in a transaction.
 */
export async function eraseChild(tx: Database, childId: string, reason: string, actor: Actor): Promise<void> {
  await requireChild(tx, childId, 'update');
  await deleteChild(tx, childId);
  await tx.updateTable('idempotency_keys').set({ body: null }).where('body', 'is not', null).execute();
  const waiting = tx.selectFrom('imports').select('id').where('status', '!=', 'queued');
  await tx.deleteFrom('import_rows').where('import_id', 'in', waiting).execute();
  await tx.updateTable('imports').set({ kept: false, files: null }).where('status', '!=', 'queued').execute();
  // What an import showed of its sheet names children in its examples and remarks; its counts stay.
  await tx
    .updateTable('imports')
    .set({ plan: sql<string>`plan || ${JSON.stringify(NO_WORDS)}::jsonb` })
    .execute();
  await tx.insertInto('tombstones').values({ child_id: childId, erased_by: actor.name, reason }).execute();
  await writeAudit(tx, actor, 'erase', 'child', { childId, reason });
}
