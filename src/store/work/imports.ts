import { randomUUID } from 'node:crypto';
import type { Caseload } from '../../records/caseload.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import type { AddedIds, Store, StoredImport } from '../contract.js';
import { notFound } from '../refusals.js';
import { freshIds, takeBackImport } from './take-back-import.js';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of queries, each short
export const importsRepository = (db: Database): Store['imports'] => ({
  async create({ plan, caseload, childIds, packed, options }, actor) {
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
  async again(id, { plan, caseload, childIds }, actor) {
    await db
      .updateTable('imports')
      .set({ plan: JSON.stringify(plan), caseload })
      .where('id', '=', id)
      .where('status', '=', 'checked')
      .execute();
    await writeAudit(db, actor, 'change', 'import', { childIds, importId: id });
  },
  async latest() {
    const rows = await db
      .selectFrom('imports')
      .select(['id', 'status', 'created_at', 'created_by'])
      .orderBy('created_at', 'desc')
      .limit(20)
      .execute();
    return rows.map((r) => ({
      id: r.id,
      status: r.status,
      createdAt: r.created_at.toISOString(),
      createdBy: r.created_by,
    }));
  },
  async children(id) {
    const { added } = await read(db, id, false);
    if (added === null) return [];
    const rows = await db
      .selectFrom('measurements')
      .select('child_id')
      .distinct()
      .where('id', 'in', ['', ...added.measurements])
      .execute();
    return [...new Set([...added.children, ...rows.map((r) => r.child_id)])].sort();
  },
  get: (id) => read(db, id, false),
  lock: (id) => read(db, id, true),
  fresh: (caseload) => freshIds(db, caseload),
  takeBack: (id, actor) => takeBackImport(db, id, actor),
  async committed(id, added) {
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
  async sweep(before) {
    await db
      .deleteFrom('imports')
      .where('status', 'in', ['checked', 'refused'])
      .where('created_at', '<', before)
      .execute();
  },
  async setStatus(id, status, plan) {
    await db
      .updateTable('imports')
      .set({ status, ...(plan === undefined ? {} : { plan: JSON.stringify(plan) }) })
      .where('id', '=', id)
      .execute();
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
