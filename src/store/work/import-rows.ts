import { sql } from 'kysely';
import { type Caseload, type CaseloadPart, caseloadParts } from '../../records/caseload.js';
import type { Database } from '../connect.js';
import { inCamelCase } from '../record-of.js';
import { caseloadTables } from '../records/caseload-tables.js';
import type { AddedIds, ImportCounts, Namesake, RecordsAsText } from '../shapes.js';

const ROWS_AT_ONCE = 1000;

/** Keeps the records of a dry run, as they come: whoever hands them on makes no objects of them. */
export async function keepRows(
  tx: Database,
  importId: string,
  records: AsyncIterable<RecordsAsText> | Iterable<RecordsAsText>,
): Promise<void> {
  await tx.deleteFrom('import_rows').where('import_id', '=', importId).execute();
  let kept = 0n;
  for await (const { part, json } of records) {
    const { numAffectedRows = 0n } = await sql`
      insert into import_rows (import_id, seq, part, record_id, data)
      select ${importId}, ${Number(kept)} + n, ${part}, value ->> 'id', value
      from jsonb_array_elements(${json}::jsonb) with ordinality r (value, n)`.execute(tx);
    kept += numAffectedRows;
  }
  await sql`analyze import_rows`.execute(tx);
}

/** The records again, in the order in which they were read: what one belongs to comes before it. */
export async function* rowsOfImport(tx: Database, importId: string): AsyncGenerator<Partial<Caseload>> {
  for (let last = 0; ; ) {
    const rows = await tx
      .selectFrom('import_rows')
      .select(['seq', 'part', 'data'])
      .where('import_id', '=', importId)
      .where('seq', '>', last)
      .orderBy('seq')
      .limit(ROWS_AT_ONCE)
      .execute();
    if (rows.length === 0) return;
    last = rows[rows.length - 1].seq;
    const batch: { [P in CaseloadPart]?: unknown[] } = {};
    for (const { part, data } of rows) (batch[part] ??= []).push(data);
    yield batch as Partial<Caseload>;
  }
}

/** What taking the records in would do, counted by the database. */
export async function compareRows(tx: Database, importId: string): Promise<ImportCounts[]> {
  const counts: ImportCounts[] = [];
  for (const table of caseloadParts) {
    const at = caseloadTables[table];
    const { rows } = await sql<{ given: number; added: number; changed: number }>`
      select count(*)::int as given, count(*) filter (where k.id is null)::int as added,
        count(*) filter (where k.id is not null and ${differs(at)})::int as changed
      from import_rows s left join ${sql.table(at.current)} k on k.id = s.record_id
      where s.import_id = ${importId} and s.part = ${table}`.execute(tx);
    const { given, added, changed } = rows[0];
    counts.push({ table, added, changed, unchanged: given - added - changed });
  }
  return counts;
}

/** An empty field is as good as none; the order of fields is no difference. */
function differs({ reads }: { readonly reads: readonly string[] }) {
  const fields = reads.map((column) => sql`${sql.lit(inCamelCase(column))}, k.${sql.ref(column)}`);
  const kept = reads[0] === 'data' ? sql`k.data` : sql`jsonb_build_object(${sql.join(fields)})`;
  return sql`jsonb_strip_nulls(${kept}) <> jsonb_strip_nulls(s.data)`;
}

/** Children who seem to be kept already, under another number: of the same name and birth date. */
export async function namesakesOf(
  tx: Database,
  importId: string,
  sameName: (a: string, b: string) => boolean,
): Promise<Namesake[]> {
  const found: Namesake[] = [];
  for (let last = 0, asked = ROWS_AT_ONCE; asked === ROWS_AT_ONCE; ) {
    const { rows } = await sql<Namesake & { seq: number }>`
      with asked as (select * from import_rows where import_id = ${importId} and part = 'children' and seq > ${last}
        order by seq limit ${ROWS_AT_ONCE})
      select s.seq, s.data ->> 'name' as name, k.birth_date as "birthDate", k.id as "keptId", k.data ->> 'name' as "keptName"
      from asked s left join children k on k.birth_date = (s.data ->> 'birthDate')::date
        and s.data ->> 'name' <> '' and k.data ->> 'name' <> ''
        and not exists (select 1 from children o where o.id = s.record_id)
      order by s.seq, k.id`.execute(tx);
    for (const { seq: _, ...one } of rows)
      if (one.keptId && sameName(one.name, one.keptName)) found.push(one);
    asked = new Set(rows.map(({ seq }) => seq)).size;
    last = rows.at(-1)?.seq ?? last;
  }
  return found;
}

/** Ids of the children whose records these are. */
export async function childrenOfImport(db: Database, importId: string): Promise<string[]> {
  const { rows } = await sql<{ id: string }>`
    select distinct case part when 'children' then record_id else data ->> 'childId' end as id from import_rows
    where import_id = ${importId} and (part = 'children' or data ->> 'childId' is not null)`.execute(db);
  return rows.map(({ id }) => id);
}

/** Ids that are not kept yet, by part: what taking it in would add. */
export async function freshIds(db: Database, importId: string): Promise<AddedIds> {
  const fresh: Record<string, string[]> = {};
  for (const part of caseloadParts) {
    const { rows } = await sql<{ id: string }>`
      select record_id as id from import_rows s where import_id = ${importId} and part = ${part}
        and not exists (select 1 from ${sql.table(caseloadTables[part].table)} k where k.id = s.record_id)
      order by seq`.execute(db);
    fresh[part] = rows.map(({ id }) => id);
  }
  return fresh as unknown as AddedIds;
}
