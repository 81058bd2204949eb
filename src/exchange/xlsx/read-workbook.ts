import type { TextTable } from '../csv/read-table.js';
import type { SheetRow } from './read-sheet.js';
import { readSheets } from './read-sheets.js';

/**
 * The sheets of an .xlsx file as text tables, so that they take the same way in as CSV. A date cell becomes an ISO
 * date; empty sheets are left out. A sheet's table is named 'clinic.xlsx children'.
 */
export async function readWorkbook(file: string, bytes: Uint8Array): Promise<TextTable[]> {
  const sheets = await readSheets(file, bytes);
  return sheets.flatMap(({ name, rows }) => {
    if (rows.length === 0) return [];
    const [headings, ...below] = rows.map((row) => ({ row: row.row, cells: inColumns(row) }));
    return [{ file: `${file} ${name}`, headings: headings.cells, rows: below }];
  });
}

/** A row's texts by column, empty ones between. */
function inColumns({ cells }: SheetRow): string[] {
  const texts: string[] = new Array(cells[cells.length - 1].column).fill('');
  for (const { column, text } of cells) texts[column - 1] = text;
  return texts;
}
