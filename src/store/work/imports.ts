import { randomUUID } from 'node:crypto';
import type { Caseload } from '../../records/caseload.js';
import { childrenIn } from '../../records/caseload.js';
import type { Database } from '../connect.js';
import type { Store, StoredImport } from '../contract.js';
import { writeAudit } from '../people/audit.js';
import { notFound } from '../records/require-child.js';

export const importsRepository = (db: Database): Store['imports'] => ({
  async create(plan, caseload, actor) {
    const id = randomUUID();
    await db
      .insertInto('imports')
      .values({
        id,
        status: 'checked',
        plan: JSON.stringify(plan),
        caseload: JSON.stringify(caseload),
        created_by: actor.name,
      })
      .execute();
    await writeAudit(db, {
      actor,
      action: 'create',
      resource: 'import',
      childIds: childrenIn(caseload),
      detail: { importId: id },
    });
    return id;
  },
  get: (id) => read(db, id, false),
  lock: (id) => read(db, id, true),
  async setStatus(id, status, plan) {
    await db
      .updateTable('imports')
      .set({
        status,
        ...(plan === undefined ? {} : { plan: JSON.stringify(plan) }),
        ...(status === 'committed' ? { committed_at: new Date(), caseload: null } : {}),
      })
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
    createdBy: row.created_by,
  };
}
