import { inOwnWords, type RefusedRow } from '../refused-row.js';
import type { TableName } from './columns.js';
import type { Places, TextTable } from './read-table.js';
import { type ReadSettings, RowReader, type TableLayout, tableLayout } from './row-reader.js';

/** What one table gives: rows that can be used, one after another, and by the last of them the rows refused and remarks. */
export interface TableResult<T> {
  readonly records: Iterable<T>;
  readonly refused: readonly RefusedRow[];
  readonly notices: readonly string[];
}

/**
 * Reads a table row by row, as its records are asked for. A row that repeats another in every cell is refused, and so is
 * a second row with an id already taken; the first stands. `read` returns the row's records, none where it refused.
 */
export function readRows<T extends { readonly id: string }>(
  table: TableName,
  text: TextTable,
  settings: ReadSettings,
  read: (row: RowReader, layout: TableLayout) => readonly T[],
): TableResult<T> {
  const layout = tableLayout(table, text);
  const refused: RefusedRow[] = [];
  const rows = rowReaders(layout, text, settings, refused);
  return { records: firstOfEach(rows, (row) => read(row, layout), refused), refused, notices: [] };
}

interface ReadRow {
  readonly reader: RowReader;
  readonly places: Places | undefined;
}

/** Rows that no earlier one says in every cell. */
function* rowReaders(
  layout: TableLayout,
  text: TextTable,
  settings: ReadSettings,
  refused: RefusedRow[],
): Generator<ReadRow> {
  const rowOfContent = new Map<string, number>();
  const made = new Set<string>();
  for (const { row, cells, places } of text.rows) {
    // Rows made of a clinic's own sheet were told apart when they were made.
    const same = firstWith(rowOfContent, places === undefined ? cells.join('\u0000') : '', row);
    if (same !== row) refused.push(repeated(layout.file, row, same));
    else yield { reader: new RowReader(layout, row, cells, settings, made), places };
  }
}

function* firstOfEach<T extends { readonly id: string }>(
  rows: Iterable<ReadRow>,
  read: (row: RowReader) => readonly T[],
  refused: RefusedRow[],
): Generator<T> {
  const rowOfId = new Map<string, number>();
  for (const { reader, places } of rows) {
    for (const record of read(reader)) {
      const isNew = !rowOfId.has(record.id);
      const taken = firstWith(rowOfId, record.id, reader.row);
      if (isNew) yield record;
      else if (taken !== reader.row) reader.refuse('id', `is already the id of row ${taken}`);
    }
    for (const refusal of reader.refused) refused.push(inOwnWords(refusal, places));
  }
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
