import type { TableName } from '../csv/columns.js';
import type { Places, TextRow, TextTable } from '../csv/read-table.js';
import { safeCell } from '../csv/row-reader.js';

export interface MadeRow {
  readonly row: number;
  readonly cells: Readonly<Record<string, string>>;
  readonly places: Places;
}

/** Rows made of a clinic's sheet as one of the tables doorpost reads, so that they meet the same checks. */
export function madeTable(file: string, table: TableName, rows: readonly MadeRow[]): TextTable {
  const named = new Set<string>();
  for (const { cells } of rows) for (const heading of Object.keys(cells)) named.add(heading);
  const headings = [...named];
  return {
    file,
    table,
    headings: headings.map(safeCell),
    rows: { [Symbol.iterator]: () => textRows(headings, rows) },
  };
}

function* textRows(headings: readonly string[], rows: readonly MadeRow[]): Generator<TextRow> {
  for (const { row, cells, places } of rows)
    yield { row, cells: headings.map((h) => safeCell(Object.hasOwn(cells, h) ? cells[h] : '')), places };
}
