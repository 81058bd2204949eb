import { randomUUID } from 'node:crypto';
import { DoorpostError } from '../../errors.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { recordOf } from '../record-of.js';
import { notFound } from '../refusals.js';
import type { Actor, AddedIds, CheckedImport, ImportRun, StoredImport } from '../shapes.js';
import {
  childrenOfImport,
  compareRows,
  freshIds,
  keepRows,
  namesakesOf,
  rowsOfImport,
} from './import-rows.js';
import { takeBackImport } from './take-back-import.js';

export const importsRepository = (db: Database) => ({
  /** Keeps a dry run until it is taken in. */
  create: <P>(checked: CheckedImport<P>, actor: Actor) =>
    atomically(db, async (tx) => {
      const id = randomUUID();
      const { packed, options } = checked;
      await tx
        .insertInto('imports')
        .values({
          id,
          status: 'checked',
          plan: '{}',
          files: packed && Buffer.from(packed.buffer, packed.byteOffset, packed.byteLength),
          options: JSON.stringify(options),
          created_by: actor.name,
        })
        .execute();
      return { id, plan: await keepPlan(tx, id, checked, actor, 'create') };
    }),
  /** Another dry run of the same files, before it is taken in. */
  again: <P>(id: string, checked: Omit<CheckedImport<P>, 'packed' | 'options'>, actor: Actor) =>
    atomically(db, async (tx) => {
      await readChecked(tx, id);
      return keepPlan(tx, id, checked, actor, 'change');
    }),
  /** Every import with when it was made, the newest first, up to 20. */
  async latest(): Promise<readonly ImportRun[]> {
    const rows = await db
      .selectFrom('imports')
      .select(['id', 'status', 'created_at', 'created_by'])
      .orderBy('created_at', 'desc')
      .limit(20)
      .execute();
    return rows.map(recordOf);
  },
  get: (id: string) => read(db, id, false),
  checked: (id: string) => readChecked(db, id),
  /** Locks it for the rest of the transaction. */
  lock: (id: string) => read(db, id, true),
  /** Its records, some after another. */
  rows: (id: string) => rowsOfImport(db, id),
  childIds: (id: string) => childrenOfImport(db, id),
  /** Ids that are not kept yet, by part: what taking it in would add. */
  fresh: (id: string) => freshIds(db, id),
  /** Takes out what the import added and nothing was built on since. What stays is counted by why. */
  takeBack: (id: string, actor: Actor) => takeBackImport(db, id, actor),
  async committed(id: string, added: AddedIds) {
    await db.deleteFrom('import_rows').where('import_id', '=', id).execute();
    await db
      .updateTable('imports')
      .set({
        status: 'committed',
        committed_at: new Date(),
        kept: false,
        files: null,
        added: JSON.stringify(added),
      })
      .where('id', '=', id)
      .execute();
  },
  /** Forgets dry runs made before then that were never taken in; they hold whole files of records. */
  async sweep(before: Date) {
    await db
      .deleteFrom('imports')
      .where('status', 'in', ['checked', 'refused'])
      .where('created_at', '<', before)
      .execute();
  },
  async setStatus(id: string, status: StoredImport['status']) {
    await db.updateTable('imports').set({ status }).where('id', '=', id).execute();
  },
});

async function keepPlan<P>(
  tx: Database,
  id: string,
  { records, planOf, sameName }: Omit<CheckedImport<P>, 'packed' | 'options'>,
  actor: Actor,
  action: 'create' | 'change',
): Promise<P> {
  await keepRows(tx, id, records);
  const plan = planOf(await compareRows(tx, id), await namesakesOf(tx, id, sameName));
  await tx
    .updateTable('imports')
    .set({ plan: JSON.stringify(plan) })
    .where('id', '=', id)
    .execute();
  await writeAudit(tx, actor, action, 'import', { childIds: await childrenOfImport(tx, id), importId: id });
  return plan;
}

/** A dry run that can still be answered or taken in; locked for the rest of the transaction. */
async function readChecked(db: Database, id: string): Promise<StoredImport> {
  const found = await read(db, id, true);
  if (found.status === 'checked' && found.kept) return found;
  throw new DoorpostError(
    'already-there',
    'This import was taken in already, or its dry run is no longer kept',
    { accepted: 'a new dry run' },
  );
}

async function read(db: Database, id: string, lock: boolean): Promise<StoredImport> {
  const row = await db
    .selectFrom('imports')
    .selectAll()
    .where('id', '=', id)
    .$if(lock, (q) => q.forUpdate())
    .executeTakeFirst();
  if (!row) throw notFound('import');
  return {
    id: row.id,
    status: row.status,
    plan: row.plan,
    kept: row.kept,
    packed: row.files,
    options: row.options,
    added: row.added as AddedIds | null,
    createdBy: row.created_by,
  };
}
