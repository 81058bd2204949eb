import { randomUUID } from 'node:crypto';
import type { Caseload } from '../../records/caseload.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { recordOf } from '../record-of.js';
import { notFound } from '../refusals.js';
import type { Actor, AddedIds, CheckedImport, ImportRun, StoredImport } from '../shapes.js';
import { freshIds, takeBackImport } from './take-back-import.js';

export const importsRepository = (db: Database) => ({
  async create({ plan, caseload, childIds, packed, options }: CheckedImport, actor: Actor): Promise<string> {
    const id = randomUUID();
    await db
      .insertInto('imports')
      .values({
        id,
        status: 'checked',
        plan: JSON.stringify(plan),
        caseload,
        files: Buffer.from(packed.buffer, packed.byteOffset, packed.byteLength),
        options: JSON.stringify(options),
        created_by: actor.name,
      })
      .execute();
    await writeAudit(db, actor, 'create', 'import', { childIds, importId: id });
    return id;
  },
  /** Another dry run of the same files, before it is taken in. */
  async again(
    id: string,
    { plan, caseload, childIds }: Omit<CheckedImport, 'packed' | 'options'>,
    actor: Actor,
  ) {
    await db
      .updateTable('imports')
      .set({ plan: JSON.stringify(plan), caseload })
      .where('id', '=', id)
      .where('status', '=', 'checked')
      .execute();
    await writeAudit(db, actor, 'change', 'import', { childIds, importId: id });
  },
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
  /** Locks it for the rest of the transaction. */
  lock: (id: string) => read(db, id, true),
  /** Ids in this caseload that are not kept yet, by table: what taking it in would add. */
  fresh: (caseload: Caseload) => freshIds(db, caseload),
  /** Takes out what the import added and nothing was built on since. What stays is counted by why. */
  takeBack: (id: string, actor: Actor) => takeBackImport(db, id, actor),
  async committed(id: string, added: AddedIds) {
    await db
      .updateTable('imports')
      .set({
        status: 'committed',
        committed_at: new Date(),
        caseload: null,
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
    caseload: row.caseload as Caseload | null,
    packed: row.files,
    options: row.options,
    added: row.added as AddedIds | null,
    createdBy: row.created_by,
  };
}
