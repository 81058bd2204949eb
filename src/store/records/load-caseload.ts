import { type RawBuilder, sql } from 'kysely';
import { type Caseload, type CaseloadPart, caseloadParts } from '../../records/caseload.js';
import type { Database } from '../connect.js';
import { jsonRows } from '../json-rows.js';
import { type CaseloadTable, caseloadTables, type Row } from './caseload-tables.js';

type Part = Pick<CaseloadTable<unknown>, 'current' | 'childKey' | 'order' | 'reads' | 'of'>;
export type RowsByPart = Readonly<Record<CaseloadPart, readonly Row[]>>;
const tableOf = (part: CaseloadPart): Part => caseloadTables[part];

/** All current ground rows, in stable order. Not audited: callers are. */
export async function loadCaseload(db: Database): Promise<Caseload> {
  const loaded = await Promise.all(
    caseloadParts.map(async (part) => [part, (await rowsOf(tableOf(part)).execute(db)).rows] as const),
  );
  return caseloadOf(Object.fromEntries(loaded) as unknown as RowsByPart);
}

/** The same of these children, in one statement: a page or a job asks for few, and each query costs more than its rows. */
export async function loadCaseloadOf(
  db: Database,
  ids: readonly string[],
  parts = caseloadParts,
): Promise<Caseload> {
  const { rows } = await sql<Partial<RowsByPart>>`select ${partsOf(ids, parts)}`.execute(db);
  return caseloadOf(rows[0]);
}

/** A column a part with its rows as JSON, for a statement that reads more beside them. */
export const partsOf = (ids: readonly string[], parts = caseloadParts): RawBuilder<unknown> =>
  sql`${sql.join(parts.map((part) => jsonRows(rowsOf(tableOf(part), ids), part)))}`;

export const caseloadOf = (rows: Partial<RowsByPart>): Caseload =>
  Object.fromEntries(
    caseloadParts.map((part) => [part, (rows[part] ?? []).map((row) => tableOf(part).of(row))]),
  ) as unknown as Caseload;

const rowsOf = ({ current, childKey, order, reads }: Part, ids?: readonly string[]) =>
  sql<Row>`select ${sql.join(reads.map((column) => sql.ref(column)))} from ${sql.table(current)}
    ${ids ? sql`where ${sql.ref(childKey)} = any(${ids})` : sql``}
    order by ${sql.join(order.map((column) => sql.ref(column)))}`;
