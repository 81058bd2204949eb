import { sql } from 'kysely';
import { DoorpostError } from '../../errors.js';
import type { Caseload } from '../../records/caseload.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import {
  caseloadParts,
  caseloadTables,
  type InPlace,
  isRevised,
  type Revised,
} from '../records/caseload-tables.js';
import type { Actor, AddedIds, TakenBack } from '../shapes.js';

/** What people and the service make of a child's records afterwards: worked rows, links. */
const BUILT = ['recall_state_changes', 'family_links'] as const;
/** What is computed and can be computed again. */
const DERIVED = ['recall_entries', 'forecast_history', 'assessments', 'record_history'] as const;

/** Why a record was withdrawn that an import had added. */
const TAKEN_BACK = 'import taken back';

/** Ids of a caseload that are not kept yet. */
export async function freshIds(db: Database, caseload: Caseload): Promise<AddedIds> {
  const fresh: Record<string, string[]> = {};
  for (const part of caseloadParts) {
    const { table } = caseloadTables[part];
    const ids = caseload[part].map(({ id }) => id);
    const known = await sql<{
      id: string;
    }>`select distinct id from ${sql.table(table)} where id = any(${ids})`.execute(db);
    const before = new Set(known.rows.map(({ id }) => id));
    fresh[part] = ids.filter((id) => !before.has(id));
  }
  return fresh as unknown as AddedIds;
}

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
    for (const child of gone) removed += await removeChild(tx, child);
    const kept = await withdrawRest(tx, added, new Set(gone), actor);
    await tx.updateTable('imports').set({ status: 'taken-back' }).where('id', '=', id).execute();
    const stays = [
      { why: 'children with records or work added since', count: built.size },
      { why: 'devices with events, checks or workshop jobs', count: kept.devices },
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

async function removeChild(tx: Database, child: string): Promise<number> {
  await sql`select set_config('doorpost.erasing', ${child}, true)`.execute(tx);
  let removed = 0;
  for (const table of DERIVED)
    await sql`delete from ${sql.table(table)} where child_id = ${child}`.execute(tx);
  for (const part of caseloadParts) {
    const { table, childKey } = caseloadTables[part];
    // A record that was corrected or withdrawn has several rows and is one record.
    const gone = await sql<{ records: number }>`
      with gone as (delete from ${sql.table(table)} where ${sql.ref(childKey)} = ${child} returning id)
      select count(distinct id)::int as records from gone`.execute(tx);
    removed += gone.rows[0].records;
  }
  await sql`select set_config('doorpost.erasing', '', true)`.execute(tx);
  return removed;
}

/** Records added to children who stay: withdrawn where they are still as they came. */
async function withdrawRest(tx: Database, added: AddedIds, gone: ReadonlySet<string>, actor: Actor) {
  let withdrawn = 0;
  let corrected = 0;
  for (const part of ['measurements', 'markers', 'events', 'skinChecks'] as const) {
    const { table } = caseloadTables[part];
    const rows = await sql<{ seq: string; id: string; revision: number; child_id: string }>`
      select distinct on (id) seq, id, revision, child_id from ${sql.table(table)}
      where id = any(${added[part]}) order by id, revision desc`.execute(tx);
    for (const row of rows.rows) {
      if (gone.has(row.child_id)) continue;
      if (row.revision > 1) corrected++;
      else {
        await withdrawRow(tx, table, row, actor);
        withdrawn++;
      }
    }
  }
  const devices = await sql<{ id: string }>`
    delete from devices d where id = any(${added.devices}) and version = 1
      and not exists (select 1 from device_events e where e.device_id = d.id)
      and not exists (select 1 from skin_checks s where s.device_id = d.id)
      and not exists (select 1 from workshop_jobs j where j.device_id = d.id)
    returning id`.execute(tx);
  const left = await sql<{
    n: number;
  }>`select count(*)::int as n from devices where id = any(${added.devices})`.execute(tx);
  return { withdrawn: withdrawn + devices.rows.length, corrected, devices: left.rows[0].n };
}

/** The next revision of the row, withdrawn, with everything else as it was. */
async function withdrawRow(
  tx: Database,
  table: string,
  { seq, revision }: { seq: string; revision: number },
  actor: Actor,
): Promise<void> {
  const columns = await sql<{ name: string }>`
    select column_name as name from information_schema.columns
    where table_schema = current_schema() and table_name = ${table}
      and column_name not in ('seq', 'revision', 'corrects_seq', 'withdrawn', 'reason', 'recorded_by', 'recorded_at')`.execute(
    tx,
  );
  const names = sql.join(columns.rows.map(({ name }) => sql.ref(name)));
  await sql`insert into ${sql.table(table)} (${names}, revision, corrects_seq, withdrawn, reason, recorded_by)
    select ${names}, ${revision + 1}, seq, true, ${TAKEN_BACK}, ${actor.name}
    from ${sql.table(table)} where seq = ${seq}`.execute(tx);
}
