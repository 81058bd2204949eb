import { type CsvError, parse } from 'csv-parse/sync';
import { DoorpostError } from '../../errors.js';
import { heldOnce } from '../remembered.js';
import type { TableName } from './columns.js';

/** Merged cells, rows from 1 and columns from 0. */
export interface Range {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** Where the cells of a made row stood in the clinic's own sheet, by our column. */
export type Places = Readonly<Record<string, { readonly column: string; readonly given: string }>>;

/**
 * A file or sheet as text cells under headings. `row` counts from 1 and includes the heading line. The rows of a table
 * made of a clinic's sheet are made while they are read: 100,000 of them are never held at once.
 */
export interface TextTable {
  readonly file: string;
  /** The sheet's name in its workbook. */
  readonly sheet?: string;
  /** What stands between the cells of a delimited file. */
  readonly separator?: string;
  /** Which table it is, where its maker knows; else read off its name or headings. */
  readonly table?: TableName;
  readonly headings: readonly string[];
  /** The line of `headings`, from 1; 1 where nothing else is said. */
  readonly headingRow?: number;
  /** Merged cells of a sheet. */
  readonly merged?: readonly Range[];
  readonly rows: Iterable<TextRow>;
}

export interface TextRow {
  readonly row: number;
  readonly cells: readonly string[];
  /** Where the cells stood in the clinic's own sheet, for a table made of one. */
  readonly places?: Places;
}

/**
 * Reads delimited text as clinics' spreadsheets write it: UTF-8 or UTF-16 with or without byte order mark,
 * else Windows-1252; comma, semicolon, tab or bar; any line ending; a first line 'sep=;' obeyed.
 */
export function readTable(
  file: string,
  bytes: Uint8Array,
): TextTable & { readonly rows: readonly TextRow[] } {
  const text = decode(bytes);
  const [body, declared] = withoutSeparatorLine(text);
  const delimiter = declared ?? sniffDelimiter(body);
  const same = heldOnce();
  let records: string[][];
  try {
    records = parse(withQuotedDittos(body, delimiter), {
      delimiter,
      trim: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: false,
      record_delimiter: ['\r\n', '\n', '\r'],
      on_record: (cells: string[]) => cells.map(same),
    }) as string[][];
  } catch (error) {
    const { message, lines } = error as CsvError & { lines?: number };
    throw new DoorpostError('invalid-file', `${file} is not a readable table: ${message}`, {
      file,
      row: lines,
      accepted: 'delimited text with one heading line; a quote inside a quoted cell is doubled',
    });
  }
  const shift = declared === null ? 0 : 1;
  const filled = records
    .map((cells, index) => ({ row: index + 1 + shift, cells }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  if (filled.length === 0) {
    throw new DoorpostError('invalid-file', `${file} is empty`, {
      file,
      accepted: 'one heading line and one line a record',
    });
  }
  return {
    file,
    separator: delimiter,
    headings: filled[0].cells,
    headingRow: filled[0].row,
    rows: filled.slice(1),
  };
}

/** A quotation mark alone in a cell is a ditto mark and opens nothing: it is quoted itself. */
function withQuotedDittos(body: string, delimiter: string): string {
  if (!body.includes('"')) return body;
  if (isStrict(body, delimiter)) return body;
  const isAlone = (cell: string) => cell.trim() === '"';
  return body
    .split('\n')
    .map((line) => {
      const cells = line.split(delimiter);
      if (!cells.some(isAlone)) return line;
      const others = cells.map((cell) => cell.trim()).filter((cell) => cell.includes('"') && !isAlone(cell));
      if (!others.every((cell) => cell.length > 1 && cell.startsWith('"') && cell.endsWith('"'))) return line;
      return cells.map((cell) => (isAlone(cell) ? '""""' : cell)).join(delimiter);
    })
    .join('\n');
}

/** Quoted to the letter, every line as long as the first: a '","' in it is a quoted comma, not two ditto marks. */
function isStrict(body: string, delimiter: string): boolean {
  try {
    parse(body, { delimiter, trim: true, skip_empty_lines: true, record_delimiter: ['\r\n', '\n', '\r'] });
    return true;
  } catch {
    return false;
  }
}

function decode(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return Buffer.from(bytes)
      .toString('latin1')
      .replace(/[\x80-\x9f]/g, (char) => WINDOWS_1252[char.charCodeAt(0) - 0x80]);
  }
}

/** 0x80 to 0x9f by the WHATWG's index of windows-1252: Node 20's own decoder reads them as control characters. */
const WINDOWS_1252 =
  '\u20ac\x81\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\x8d\u017d\x8f\x90\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\x9d\u017e\u0178';

/** Some spreadsheets write 'sep=;' as the first line. */
function withoutSeparatorLine(text: string): [body: string, delimiter: string | null] {
  const match = /^sep=(.)\r?\n/i.exec(text);
  return match ? [text.slice(match[0].length), match[1]] : [text, null];
}

/**
 * The delimiter that splits the first lines into equally many cells: titles above and decimal commas within do not
 * mislead it. Of two that do it as well the one that is rarer inside cells.
 */
function sniffDelimiter(text: string): string {
  const lines = text
    .slice(0, 20_000)
    .replace(/"[^"]*"/g, '')
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 30);
  const scored = ['\t', ';', '|', ','].map((mark) => {
    const counts = lines.map((line) => line.split(mark).length - 1);
    const usual = counts
      .filter((n) => n > 0)
      .sort(
        (a, b) => counts.filter((n) => n === b).length - counts.filter((n) => n === a).length || b - a,
      )[0];
    const alike = usual === undefined ? 0 : counts.filter((n) => n === usual).length / lines.length;
    return { mark, score: usual === undefined ? 0 : alike + Math.min(usual, 10) * 0.02 };
  });
  return scored.reduce((best, one) => (one.score > best.score + 1e-9 ? one : best), { mark: ',', score: 0 })
    .mark;
}
