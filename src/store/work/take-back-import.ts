import { sql } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { caseloadParts } from '../../records/caseload.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import {
  type CaseloadTable,
  caseloadTables,
  type InPlace,
  isRevised,
  type Revised,
} from '../records/caseload-tables.js';
import { BUILT, deleteChild } from '../records/delete-child.js';
import { appended, type RevisedRow } from '../records/revised.js';
import type { Actor, AddedIds, TakenBack } from '../shapes.js';

/** Why a record was withdrawn that an import had added. */
const TAKEN_BACK = 'import taken back';

/**
 * Takes an import back: children it added go whole while every record of theirs came with it, unchanged, and nobody
 * worked on them since. Records it added to children who stay are withdrawn like a reading entered by mistake; devices
 * with a history stay. What the import changed stays changed.
 */
export const takeBackImport = (db: Database, id: string, actor: Actor): Promise<TakenBack> =>
  atomically(db, async (tx) => {
    const row = await tx
      .selectFrom('imports')
      .select(['status', 'added'])
      .where('id', '=', id)
      .forUpdate()
      .executeTakeFirst();
    if (row?.status !== 'committed' || row.added === null)
      throw new DoorpostError('already-there', 'This import is not taken in, or was taken back already', {
        accepted: 'an import that was taken in',
      });
    const added = row.added as AddedIds;
    const built = new Set<string>();
    for (const child of await childrenBuiltOn(tx, added)) built.add(child);
    const gone = added.children.filter((child) => !built.has(child));
    let removed = 0;
    for (const child of gone) removed += await deleteChild(tx, child);
    const kept = await withdrawRest(tx, added, new Set(gone), actor);
    await tx.updateTable('imports').set({ status: 'taken-back' }).where('id', '=', id).execute();
    const stays = [
      { why: 'children with records or work added since', count: built.size },
      { why: 'devices with events, checks, workshop jobs or questions to the family', count: kept.devices },
      { why: 'readings corrected since', count: kept.corrected },
    ].filter(({ count }) => count > 0);
    await writeAudit(tx, actor, 'withdraw', 'import', {
      childIds: [...added.children],
      importId: id,
      removed: removed + kept.withdrawn,
      stays: stays.length,
    });
    return { removed: removed + kept.withdrawn, stays };
  });

/** Children the import added who have a record it did not add, one corrected since, or work done on them. */
async function childrenBuiltOn(tx: Database, added: AddedIds): Promise<string[]> {
  const ids = added.children;
  const found = new Set<string>();
  const note = async (query: ReturnType<typeof sql<{ child_id: string }>>) => {
    for (const { child_id } of (await query.execute(tx)).rows) found.add(child_id);
  };
  for (const part of caseloadParts) {
    const { table, childKey } = caseloadTables[part];
    const key = sql.ref(childKey);
    const touched = sql.raw(isRevised(table) ? 'revision > 1' : 'version > 1');
    await note(
      sql<{ child_id: string }>`select distinct ${key} as child_id from ${sql.table(table)}
        where ${key} = any(${ids}) and (${touched} or not id = any(${added[part]})) ${notTakenBack(table)}`,
    );
  }
  for (const table of BUILT)
    await note(
      sql<{
        child_id: string;
      }>`select distinct child_id from ${sql.table(table)} where child_id = any(${ids})`,
    );
  return [...found];
}

/** A record of a later import that was taken back itself, and not touched again, holds no child. */
const notTakenBack = (table: Revised | InPlace) =>
  !isRevised(table)
    ? sql``
    : sql`and id not in (
        select w.id from ${sql.table(table)} w where w.withdrawn and w.reason = ${TAKEN_BACK}
        and not exists (select 1 from ${sql.table(table)} l where l.id = w.id and l.revision > w.revision))`;

/** Records added to children who stay: withdrawn where they are still as they came. */
async function withdrawRest(tx: Database, added: AddedIds, gone: ReadonlySet<string>, actor: Actor) {
  let withdrawn = 0;
  let corrected = 0;
  for (const part of ['measurements', 'markers', 'events', 'skinChecks'] as const) {
    const at = caseloadTables[part] as unknown as CaseloadTable<unknown, Revised>;
    const { rows } = await sql<RevisedRow>`select distinct on (id) * from ${sql.table(at.table)}
      where id = any(${added[part]}) order by id, revision desc`.execute(tx);
    for (const row of rows) {
      if (gone.has(row.child_id)) continue;
      if (row.revision > 1) corrected++;
      else {
        const said = appended(actor, row, { withdrawn: true, reason: TAKEN_BACK });
        const columns = at.columns(at.of(row), row.child_id);
        await tx
          .insertInto(at.table)
          .values({ ...columns, ...said } as never)
          .execute();
        withdrawn++;
      }
    }
  }
  const devices = await sql<{ id: string }>`
    delete from devices d where id = any(${added.devices}) and version = 1
      and not exists (select 1 from device_events e where e.device_id = d.id)
      and not exists (select 1 from skin_checks s where s.device_id = d.id)
      and not exists (select 1 from workshop_jobs j where j.device_id = d.id)
      and not exists (select 1 from family_questions q where q.device_id = d.id)
    returning id`.execute(tx);
  const left = await sql<{
    n: number;
  }>`select count(*)::int as n from devices where id = any(${added.devices})`.execute(tx);
  return { withdrawn: withdrawn + devices.rows.length, corrected, devices: left.rows[0].n };
}
