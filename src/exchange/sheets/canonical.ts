import type { TableName } from '../csv/columns.js';
import type { Places, TextRow, TextTable } from '../csv/read-table.js';
import { safeCell } from '../csv/row-reader.js';

export interface MadeRow {
  readonly row: number;
  readonly cells: Readonly<Record<string, string>>;
  readonly places: Places;
}

/**
 * Rows made of a clinic's sheet as one of the tables doorpost reads, so that they meet the same checks. Each is there once
 * by its id; where `headings` are said the rows are gone through, and may be made, only while they are read.
 */
export function madeTable(
  file: string,
  table: TableName,
  rows: Iterable<MadeRow>,
  headings = headingsOf(rows),
): TextTable {
  return {
    file,
    table,
    headings: headings.map(safeCell),
    rows: { [Symbol.iterator]: () => textRows(headings, rows) },
  };
}

function headingsOf(rows: Iterable<MadeRow>): string[] {
  const named = new Set<string>();
  for (const { cells } of rows) for (const heading of Object.keys(cells)) named.add(heading);
  return [...named];
}

function* textRows(headings: readonly string[], rows: Iterable<MadeRow>): Generator<TextRow> {
  const seen = new Set<string>();
  for (const { row, cells, places } of rows) {
    const { id = '' } = cells;
    if (id !== '' && seen.has(id)) continue;
    seen.add(id);
    yield { row, cells: headings.map((h) => safeCell(Object.hasOwn(cells, h) ? cells[h] : '')), places };
  }
}
