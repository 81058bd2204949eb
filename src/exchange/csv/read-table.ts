import { type CsvError, parse } from 'csv-parse/sync';
import { DoorpostError } from '../../errors.js';
import { heldOnce } from '../remembered.js';
import type { TableName } from './columns.js';
import { type Content, looked, SNIFFED, texts, wholeLines } from './text-pieces.js';

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
 * else Windows-1252; comma, semicolon, tab or bar; any line ending; a first line 'sep=;' obeyed. The rows are read
 * anew whenever they are gone through, a piece of the file after another: no more of it is held than whoever asks keeps.
 */
export function readTable(file: string, content: Content): TextTable {
  const { encoding, begins, quoted } = looked(content);
  const [beginning, declared] = withoutSeparatorLine(begins);
  const delimiter = declared ?? sniffDelimiter(beginning);
  const body = () => withoutSeparator(texts(content, encoding));
  // Where a quotation mark is no quotation the lines' ends say nothing of where a row ends: such a file is read whole.
  const pieces =
    !quoted || isStrict(wholeLines(body()), delimiter)
      ? () => wholeLines(body())
      : () => [withQuotedDittos([...body()].join(''), delimiter)];
  const filled = () => filledRows(file, pieces(), delimiter, declared === null ? 0 : 1);
  const [first] = filled();
  if (first === undefined) {
    throw new DoorpostError('invalid-file', `${file} is empty`, {
      file,
      accepted: 'one heading line and one line a record',
    });
  }
  return {
    file,
    separator: delimiter,
    headings: first.cells,
    headingRow: first.row,
    rows: { [Symbol.iterator]: () => withoutFirst(filled()) },
  };
}

function* withoutFirst<T>(all: Iterator<T>): Generator<T> {
  all.next();
  for (let next = all.next(); !next.done; next = all.next()) yield next.value;
}

/** Rows with a cell that is not empty. */
function* filledRows(
  file: string,
  pieces: Iterable<string>,
  delimiter: string,
  before: number,
): Generator<TextRow> {
  const same = heldOnce();
  let row = before;
  try {
    for (const piece of pieces)
      for (const cells of parse(piece, {
        ...{ delimiter, trim: true, relax_column_count: true, relax_quotes: true },
        ...{ skip_empty_lines: false, record_delimiter: LINE_ENDS },
      }) as string[][]) {
        row++;
        if (cells.some((cell) => cell !== '')) yield { row, cells: cells.map(same) };
      }
  } catch (error) {
    if (error instanceof DoorpostError) throw error;
    const { message, lines } = error as CsvError & { lines?: number };
    throw new DoorpostError('invalid-file', `${file} is not a readable table: ${message}`, {
      file,
      row: lines,
      accepted: 'delimited text with one heading line; a quote inside a quoted cell is doubled',
    });
  }
}

/** A quotation mark alone in a cell is a ditto mark and opens nothing: it is quoted itself. */
function withQuotedDittos(body: string, delimiter: string): string {
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
function isStrict(pieces: Iterable<string>, delimiter: string): boolean {
  let cells: number | undefined;
  try {
    for (const piece of pieces)
      for (const { length } of parse(piece, {
        ...{ delimiter, trim: true, skip_empty_lines: true, record_delimiter: LINE_ENDS },
      }) as string[][]) {
        cells ??= length;
        if (length !== cells) return false;
      }
    return true;
  } catch {
    return false;
  }
}

const LINE_ENDS = ['\r\n', '\n', '\r'];

function* withoutSeparator(pieces: Iterable<string>): Generator<string> {
  let first = true;
  for (const piece of pieces) {
    yield first ? withoutSeparatorLine(piece)[0] : piece;
    first = false;
  }
}

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
    .slice(0, SNIFFED)
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
