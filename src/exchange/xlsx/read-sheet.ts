import type { NumberFormat } from './number-formats.js';
import type { Archive } from './open-archive.js';
import { readXml } from './read-xml.js';
import { serialDate } from './serial-date.js';
import { unescaped } from './shared-strings.js';

/** One cell that holds a value. */
export interface SheetCell {
  /** From 1. */
  readonly column: number;
  /** What it says: a date as ISO, a number with a point, everything else as written. Never empty. */
  readonly text: string;
  readonly kind: 'text' | 'number' | 'date' | 'boolean' | 'error';
  /** The format's code where it has one: it may carry a unit, '0.0" cm"'. */
  readonly format: string;
}

/** One row with its filled cells in the order of their columns; empty rows are not there. */
export interface SheetRow {
  /** From 1, as the spreadsheet numbers it. */
  readonly row: number;
  readonly cells: readonly SheetCell[];
}

export interface SheetContext {
  readonly strings: readonly string[];
  readonly formats: readonly NumberFormat[];
  readonly from1904: boolean;
  /** Called with each filled row as it has been read; throws to stop. */
  row(row: SheetRow): void;
  /** Called with each range of merged cells, 'A1:C1'. */
  merged(range: string): void;
  /** Called with each filled cell before it is kept; throws to stop. */
  cell(row: number, cell: SheetCell): void;
}

const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;

/** Reads a sheet row by row. A cell that only has a format, no value, is passed over. */
export async function readSheet(archive: Archive, part: string, context: SheetContext): Promise<void> {
  let row = 0;
  let column = 0;
  let cells: SheetCell[] = [];
  let type = 'n';
  let style = -1;
  let value = '';
  let inValue = false;
  let aids = 0;
  await readXml(archive.read(part), {
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one case an element, called for every cell
    open(name, attributes) {
      if (name === 'row') {
        row = whole(attributes.get('r')) ?? row + 1;
        if (row > MOST_ROWS) throw new Error(`it has no row ${row}`);
        column = 0;
        cells = [];
      } else if (name === 'c') {
        column = columnOf(attributes.get('r')) ?? column + 1;
        type = attributes.get('t') ?? 'n';
        style = Number(attributes.get('s') ?? -1);
        value = '';
      } else if (name === 'rPh') aids++;
      else if (name === 'mergeCell') context.merged(attributes.get('ref') ?? '');
      inValue = aids === 0 && (name === 'v' || (name === 't' && type === 'inlineStr'));
    },
    text(piece) {
      if (inValue) value += piece;
    },
    close(name) {
      inValue = false;
      if (name === 'rPh') aids--;
      if (name === 'c') {
        const cell = cellOf(column, type, value, context.formats[style], context);
        if (cell === null) return;
        context.cell(row, cell);
        cells.push(cell);
      }
      if (name === 'row' && cells.length > 0) {
        cells.sort((a, b) => a.column - b.column);
        context.row({ row, cells });
      }
    },
  });
}

function cellOf(
  column: number,
  type: string,
  value: string,
  format: NumberFormat | undefined,
  { strings, from1904 }: SheetContext,
): SheetCell | null {
  const cell = (kind: SheetCell['kind'], text: string): SheetCell | null => {
    const trimmed = text.trim();
    return trimmed === '' ? null : { column, text: trimmed, kind, format: format?.code ?? '' };
  };
  if (type === 's') return cell('text', strings[whole(value) ?? -1] ?? '');
  if (type === 'str' || type === 'inlineStr') return cell('text', unescaped(value));
  if (type === 'b') return cell('boolean', value.trim() === '1' ? 'true' : 'false');
  if (type === 'e') return cell('error', value);
  if (type === 'd') return cell('date', value.slice(0, 10));
  if (value.trim() === '') return null;
  const number = Number(value);
  if (Number.isNaN(number)) return cell('text', value);
  const date = format?.date ? serialDate(number, from1904) : null;
  return date === null ? cell('number', String(number)) : cell('date', date);
}

const whole = (text: string | undefined): number | null =>
  text !== undefined && /^\d{1,9}$/.test(text.trim()) ? Number(text) : null;

/** 'AB12' is column 28. */
function columnOf(address: string | undefined): number | null {
  if (address === undefined) return null;
  const letters = /^\$?([A-Za-z]{1,3})\$?\d+$/.exec(address)?.[1];
  if (letters === undefined) throw new Error(`${address.slice(0, 20)} is no cell`);
  const column = [...letters.toUpperCase()].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
  if (column > MOST_COLUMNS) throw new Error(`${address.slice(0, 20)} is no cell`);
  return column;
}

/** 28 is 'AB'. */
export const columnLetters = (column: number): string =>
  column <= 0
    ? ''
    : columnLetters(Math.floor((column - 1) / 26)) + String.fromCharCode(65 + ((column - 1) % 26));
