import { inOwnWords, type RefusedRow } from '../refused-row.js';
import type { TableName } from './columns.js';
import type { TextTable } from './read-table.js';
import { type ReadSettings, RowReader, type TableLayout, tableLayout } from './row-reader.js';

/** What one table gave: rows that can be used, rows refused, and remarks for the person who sent the file. */
export interface TableResult<T> {
  readonly records: readonly T[];
  readonly refused: readonly RefusedRow[];
  readonly notices: readonly string[];
}

/**
 * Reads a table row by row. A row that repeats another in every cell is refused, and so is a second row
 * with an id already taken; the first stands. `read` returns the row's records, none where it refused.
 */
export function readRows<T extends { readonly id: string }>(
  table: TableName,
  text: TextTable,
  settings: ReadSettings,
  read: (row: RowReader, layout: TableLayout) => readonly T[],
): TableResult<T> {
  const layout = tableLayout(table, text);
  const refused: RefusedRow[] = [];
  const records: T[] = [];
  const rowOfId = new Map<string, number>();
  const rowOfContent = new Map<string, number>();
  const made = new Set<string>();
  for (const { row, cells, places } of text.rows) {
    // Rows made of a clinic's own sheet were told apart when they were made.
    const same = firstWith(rowOfContent, places === undefined ? cells.join('\u0000') : '', row);
    if (same !== row) {
      refused.push(repeated(layout.file, row, same));
      continue;
    }
    const reader = new RowReader(layout, row, cells, settings, made);
    for (const record of read(reader, layout)) {
      const isNew = !rowOfId.has(record.id);
      const taken = firstWith(rowOfId, record.id, row);
      if (isNew) records.push(record);
      else if (taken !== row) reader.refuse('id', `is already the id of row ${taken}`);
    }
    for (const refusal of reader.refused) refused.push(inOwnWords(refusal, places));
  }
  return { records, refused, notices: [] };
}

/** The row that had this first, which may be the row itself; nothing is nobody's. */
function firstWith(rows: Map<string, number>, what: string, row: number): number {
  if (what === '') return row;
  const first = rows.get(what) ?? row;
  rows.set(what, first);
  return first;
}

function repeated(file: string, row: number, same: number): RefusedRow {
  const why = `repeats row ${same} in every cell; row ${same} is kept`;
  return { file, row, column: 'whole row', given: `row ${same}`, why, accepted: 'each record once' };
}
