import type { Range, TextTable } from '../csv/read-table.js';
import type { SheetRow } from './read-sheet.js';
import { readSheets } from './read-sheets.js';

/**
 * The sheets of an .xlsx file as text tables, so that they take the same way in as CSV. A date cell becomes an ISO
 * date; empty sheets are left out. A sheet's table is named 'clinic.xlsx children'.
 */
export async function readWorkbook(file: string, bytes: Uint8Array): Promise<TextTable[]> {
  const sheets = await readSheets(file, bytes);
  return sheets.flatMap(({ name, rows, merged }) => {
    if (rows.length === 0) return [];
    const [headings, ...below] = rows.map((row) => ({ row: row.row, cells: inColumns(row) }));
    return [
      {
        file: `${file} ${name}`,
        sheet: name,
        headings: headings.cells,
        headingRow: headings.row,
        rows: below,
        merged: merged.flatMap(rangeOf),
      },
    ];
  });
}

/** 'A1:C1' by numbers; nothing for what is no range. */
function rangeOf(text: string): Range[] {
  const match = /^\$?([A-Z]{1,3})\$?(\d+):\$?([A-Z]{1,3})\$?(\d+)$/.exec(text);
  if (!match) return [];
  const column = (letters: string) =>
    [...letters].reduce((n, letter) => n * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return [{ top: +match[2], left: column(match[1]), bottom: +match[4], right: column(match[3]) }];
}

/** A number's format can carry its unit, '0.0" cm"'. */
const unitIn = (format: string): string =>
  /"\s*(mm|cm|m|kg|in)\.?\s*"|\\ ?(mm|cm|kg)\b/.exec(format)?.[1] ?? '';

/** A row's texts by column, empty ones between. */
function inColumns({ cells }: SheetRow): string[] {
  const texts: string[] = new Array(cells[cells.length - 1].column).fill('');
  for (const { column, text, kind, format } of cells) {
    const unit = kind === 'number' ? unitIn(format) : '';
    texts[column - 1] = unit === '' ? text : `${text} ${unit}`;
  }
  return texts;
}
