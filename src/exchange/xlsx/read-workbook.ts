import readXlsxFile from 'read-excel-file/node';
import { DoorpostError } from '../../errors.js';
import type { TextTable } from '../csv/read-table.js';

/**
 * The sheets of an .xlsx file as text tables, so that they take the same way in as CSV. A date cell becomes an ISO
 * date; empty sheets are left out. A sheet's table is named 'clinic.xlsx children'.
 */
export async function readWorkbook(file: string, bytes: Uint8Array): Promise<TextTable[]> {
  let sheets: { sheet: string; data: unknown[][] }[];
  try {
    sheets = (await readXlsxFile(Buffer.from(bytes), { trim: true })) as unknown as typeof sheets;
  } catch (error) {
    throw new DoorpostError(
      'invalid-file',
      `${file} cannot be read as a spreadsheet: ${(error as Error).message}`,
      {
        file,
        accepted:
          '.xlsx as spreadsheets save it, without a password (.xls is too old: save it as .xlsx or CSV)',
      },
    );
  }
  return sheets.flatMap(({ sheet, data }) => {
    const rows = data
      .map((cells, index) => ({ row: index + 1, cells: cells.map(cellText) }))
      .filter(({ cells }) => cells.some((cell) => cell !== ''));
    if (rows.length === 0) return [];
    return [{ file: `${file} ${sheet}`, headings: rows[0].cells, rows: rows.slice(1) }];
  });
}

function cellText(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) return cell.toISOString().slice(0, 10);
  return String(cell);
}
