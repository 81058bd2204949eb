import { DoorpostError } from '../../errors.js';
import { numberFormats } from './number-formats.js';
import { openArchive } from './open-archive.js';
import { columnLetters, readSheet, type SheetRow } from './read-sheet.js';
import { sharedStrings } from './shared-strings.js';
import { inWords, tooMuch, type WorkbookLimits, workbookLimits } from './workbook-limits.js';
import { workbookParts } from './workbook-parts.js';

export interface Sheet {
  readonly name: string;
  /** Hidden in the spreadsheet program. */
  readonly hidden: boolean;
  /** Only rows with a value. */
  readonly rows: readonly SheetRow[];
  /** Ranges of merged cells, 'A1:C1'; the value is in the first cell. */
  readonly merged: readonly string[];
}

const MOST_MERGED = 100_000;

/**
 * The sheets of an .xlsx file, filled cells only, within limits; each limit is said in the refusal. What the file
 * claims of its size (dimension, formatted empty cells) makes nothing.
 */
export async function readSheets(
  file: string,
  bytes: Uint8Array,
  limits: WorkbookLimits = workbookLimits,
): Promise<Sheet[]> {
  try {
    return await sheetsOf(file, bytes, limits);
  } catch (error) {
    if (error instanceof DoorpostError) throw error;
    const why = isOldFormat(bytes)
      ? 'it is an old .xls or locked with a password'
      : (error as Error).message.split('\n')[0].slice(0, 200);
    throw new DoorpostError('invalid-file', `${file} cannot be read as a spreadsheet: ${why}`, {
      file,
      accepted:
        '.xlsx as spreadsheets save it, without a password (.xls is too old: save it as .xlsx or CSV)',
    });
  }
}

async function sheetsOf(file: string, bytes: Uint8Array, limits: WorkbookLimits): Promise<Sheet[]> {
  const archive = await openArchive(file, bytes, limits);
  const parts = await workbookParts(archive);
  if (parts.sheets.length > limits.sheets)
    throw tooMuch(file, `has ${parts.sheets.length} sheets`, `at most ${limits.sheets} sheets`);
  const strings = await sharedStrings(archive, parts.sharedStrings);
  const formats = await numberFormats(archive, parts.styles);
  const count = counter(file, limits);
  const sheets: Sheet[] = [];
  for (const { name, hidden, part } of parts.sheets) {
    const rows: SheetRow[] = [];
    const merged: string[] = [];
    await readSheet(archive, part, {
      strings,
      formats,
      from1904: parts.from1904,
      cell: (row, cell) => count.cell(name, row, cell.column, cell.text.length),
      row(row) {
        count.row(name, row);
        rows.push(row);
      },
      merged(range) {
        if (merged.length < MOST_MERGED) merged.push(range);
      },
    });
    sheets.push({ name, hidden, rows, merged });
  }
  return sheets;
}

/** Counts what is kept of all sheets together and stops at the limits. */
function counter(file: string, limits: WorkbookLimits) {
  let rows = 0;
  let cells = 0;
  let characters = 0;
  /** Of the row being read. */
  let filled = 0;
  const full = (sheet: string, row: number, what: string, accepted: string) =>
    tooMuch(file, `sheet ${sheet}, row ${row}: ${what}`, accepted, row);
  return {
    cell(sheet: string, row: number, column: number, length: number) {
      if (column > limits.columns)
        throw full(
          sheet,
          row,
          `there is a value in column ${columnLetters(column)}`,
          `values up to column ${columnLetters(limits.columns)} (${limits.columns} columns)`,
        );
      characters += length;
      if (characters > limits.characters)
        throw full(sheet, row, 'there is too much text', `${inWords(limits.characters)} characters`);
      if (cells + Math.max(column, ++filled) > limits.cells)
        throw full(sheet, row, 'there are too many cells', `${inWords(limits.cells)} cells a file`);
    },
    row(sheet: string, { row, cells: inRow }: SheetRow) {
      rows += 1;
      cells += Math.max(filled, inRow[inRow.length - 1].column);
      filled = 0;
      if (rows > limits.rows)
        throw full(sheet, row, 'there are too many rows', `${inWords(limits.rows)} rows a file`);
    },
  };
}

/** The container of .xls and of a workbook with a password. */
const isOldFormat = (bytes: Uint8Array): boolean =>
  [0xd0, 0xcf, 0x11, 0xe0].every((byte, at) => bytes[at] === byte);
