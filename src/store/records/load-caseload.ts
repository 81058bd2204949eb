import { sql } from 'kysely';
import type { Caseload } from '../../records/caseload.js';
import type { Database } from '../connect.js';
import { type CaseloadTable, caseloadParts, caseloadTables, type Row } from './caseload-tables.js';

/** The current ground rows of these children (of all, without ids), in stable order. Not audited: callers are. */
export async function loadCaseload(
  db: Database,
  ids?: readonly string[],
  parts: readonly (keyof Caseload)[] = caseloadParts,
): Promise<Caseload> {
  const loaded = await Promise.all(
    caseloadParts.map(async (part) => {
      if (ids?.length === 0 || !parts.includes(part)) return [part, []] as const;
      const {
        current,
        childKey,
        order,
        of,
      }: Pick<CaseloadTable<unknown>, 'current' | 'childKey' | 'order' | 'of'> = caseloadTables[part];
      const { rows } = await sql<Row>`select * from ${sql.table(current)}
        ${ids ? sql`where ${sql.ref(childKey)} = any(${ids})` : sql``}
        order by ${sql.join(order.map((column) => sql.ref(column)))}`.execute(db);
      return [part, rows.map((row) => of(row))] as const;
    }),
  );
  return Object.fromEntries(loaded) as unknown as Caseload;
}
