import { readNote } from '../../forecast/flags/notes/read-note.js';
import { foldText, foldWords } from '../headings/fold-words.js';
import { isField } from '../headings/meaning.js';
import { allWords } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { isDay } from './cell-date.js';
import { cellDevices } from './cell-device.js';
import { saysStage } from './cell-device-dates.js';
import { cellSize } from './cell-size.js';
import { noWords, saysNothing, saysNotMeasured, yesWords } from './cell-words.js';
import { type Column, cellOf, columnName } from './column.js';
import { hasNameWord, isWordOfDevice, openNameIn } from './device-names.js';
import type { GridRow } from './grid.js';

/** In order of what is lost with them: a cell a record should have been made of comes before one that only may say something. */
const KINDS = ['unused', 'refused', 'device', 'size', 'date', 'words', 'remark'] as const;
type Kind = (typeof KINDS)[number];
/** As many as somebody reads. */
const MOST = 12;
const EXAMPLES = 3;

interface Sum {
  cells: number;
  readonly examples: string[];
  /** The cell that was counted last: a line taken apart into several counts once. */
  last: string;
}
interface Left extends Readonly<Omit<Sum, 'last'>> {
  readonly name: string;
  readonly kind: Kind;
}

/**
 * Which cells of a table became a record, a question or a refusal, and which did not: the one place where nothing may
 * vanish. A row is accounted for while it is gone through, so that of a long list nothing is held but the sums.
 */
export class LeftOver {
  private readonly sums = new Map<Column, Map<Kind, Sum>>();
  private row: GridRow | null = null;
  private readonly settled = new Set<Column>();
  private readonly said = new Map<Column, string>();

  /** A cell of the row that is gone through now has become part of a record, was refused or waits for an answer. */
  mark(row: GridRow, column: Column): void {
    this.goTo(row);
    this.settled.add(column);
  }

  /** What is told or asked of a cell in its own words. */
  tell(row: GridRow, column: Column, text: string): void {
    this.goTo(row);
    this.said.set(column, `${this.said.get(column) ?? ''} ${text}`);
  }

  private goTo(row: GridRow): void {
    if (row === this.row) return;
    this.row = row;
    this.settled.clear();
    this.said.clear();
  }

  has(row: GridRow, column: Column): boolean {
    return row === this.row && this.settled.has(column);
  }

  /** Filled cells of a row that no mark was made of, in columns that records are made of, and words of the others that nobody reads. */
  settle(row: GridRow, columns: readonly Column[], kind: 'unused' | 'refused' = 'unused'): void {
    for (const column of columns) {
      const text = cellOf(row, column);
      if (text === '') continue;
      const used = this.has(row, column) || saysNone(text);
      const lost = used ? unreadWords(text, row === this.row ? this.said.get(column) : '') : text;
      if (lost !== '') this.add(row, column, used ? 'words' : kind, lost);
    }
  }

  /** A cell that is kept as it is, where it may say more than words. */
  keep(row: GridRow, column: Column, text: string): void {
    const kind = saysNone(text) ? null : kindOf(column, text);
    if (kind !== null) this.add(row, column, kind, text);
  }

  add(row: GridRow, column: Column, kind: Kind, text: string): void {
    const kinds = this.sums.get(column) ?? new Map<Kind, Sum>();
    this.sums.set(column, kinds);
    const sum = kinds.get(kind) ?? { cells: 0, examples: [], last: '' };
    kinds.set(kind, sum);
    const cell = `${row.row} ${text}`;
    if (sum.last !== cell) sum.cells++;
    sum.last = cell;
    if (sum.examples.length < EXAMPLES && !sum.examples.includes(text)) sum.examples.push(text);
  }

  get all(): readonly Left[] {
    return [...this.sums].flatMap(([column, kinds]) =>
      [...kinds].map(([kind, sum]) => ({ name: columnName(column), kind, ...sum })),
    );
  }
}

/** What is left over of the sheets of a file, a line a heading and kind, what weighs most first. */
export function leftOverLines(file: string, all: readonly Left[]): string[] {
  const byName = new Map<string, Left>();
  for (const left of all) {
    const key = `${left.kind} ${foldText(left.name)}`;
    const { cells, examples } = byName.get(key) ?? { cells: 0, examples: [] };
    byName.set(key, {
      ...left,
      cells: cells + left.cells,
      examples: [...new Set([...examples, ...left.examples])].slice(0, EXAMPLES),
    });
  }
  const sorted = [...byName.values()].sort(
    (a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || b.cells - a.cells,
  );
  const lines = sorted.slice(0, MOST).map(({ name, kind, cells, examples }) => {
    const such = examples.map((text) => `"${text.slice(0, 60)}"`).join('; ');
    return `${file}: not taken from "${name}": ${cells === 1 ? SAYS[kind][0] : `${cells} ${SAYS[kind][1]}`} (${such}).`;
  });
  return sorted.length > MOST
    ? [...lines, `${file}: not taken from ${sorted.length - MOST} columns more.`]
    : lines;
}

const SAYS: Readonly<Record<Kind, readonly [one: string, several: string]>> = {
  unused: ['a cell that no record was made of', 'cells that no record was made of'],
  refused: ['a cell of a row that was refused', 'cells of rows that were refused'],
  device: ['a cell that names a device or its cast', 'cells that name a device or its cast'],
  size: ['a number', 'numbers'],
  date: ['a day', 'days'],
  words: ['a cell with words that nothing read', 'cells with words that nothing read'],
  remark: ['a remark with a number in it', 'remarks with a number in them'],
};

/** Of these columns every filled cell is to become part of a record. */
export const isMeasured = ({ meaning }: Column): boolean =>
  meaning?.kind === 'reading' ||
  isField(meaning, 'long.value') ||
  (meaning?.kind === 'field' && /^(marker\.|shoe\.size$)/.test(meaning.field));
export const isOfDevices = ({ meaning }: Pick<Column, 'meaning'>): boolean =>
  meaning?.kind === 'device' ||
  (meaning?.kind === 'field' &&
    /^device\.(family|cast_date|fitted_date|end_date|end_reason|verdict)$/.test(meaning.field));

const saysNone = (text: string): boolean =>
  saysNothing(text) || saysNotMeasured(text) || noWords.has(foldText(text));

const namesDevice = (text: string): boolean =>
  saysStage(text) ||
  (hasNameWord(text) &&
    (openNameIn(text) !== null ||
      cellDevices(text).some(({ family, likely }) => (family ?? likely) !== null)));

/** A number of two digits or with a decimal, both sides, feet and inches: a level, a class, a count or an age is no size. */
const NUMBER =
  /(?<![\d/.,])(?:\d{2,3}|\d{1,4}[.,]\d{1,2}|1\d{3})(?![\d/])|\d{3} ?\/ ?(?:\d{3}|[-–])|\d [1-7]\/\d|\d ?["″'’]/;

function kindOf(column: Column, text: string): Kind | null {
  const [first] = column.candidates;
  // A heading that says what it holds, 'Next review' or 'Centile', is kept for that; 'Foot before' and 'Diag A' are sizes.
  const known = first?.meaning.kind === 'keep' && first.strength > 0.96;
  const number = NUMBER.test(text);
  if (column.meaning?.kind === 'field') return 'unused';
  if (isDay(text)) return known ? null : 'date';
  if (column.meaning?.kind !== 'remark' && cellSize(text) !== null) return number && !known ? 'size' : null;
  const ofDevice = column.candidates.some(({ meaning }) => isOfDevices({ meaning }));
  if (namesDevice(text) || (ofDevice && yesWords.has(foldText(text)))) return 'device';
  // A finding is heard as a note on the device of that day, or told.
  return number && !known && readNote(text).findings.length === 0 ? 'remark' : null;
}

/** The words of a cell that are in none of the lists by which cells are read; a letter or two stand for other words. */
const unread = remembered((cell): readonly string[] =>
  /\p{L}/u.test(cell)
    ? foldWords(cell).filter(
        (word) => /^\p{L}{3}/u.test(word) && !allWords.has(word) && !isWordOfDevice(word),
      )
    : [],
);

/** The words of a cell that was read which no reader knows, but for those that were `told`. */
function unreadWords(cell: string, told = ''): string {
  const words = unread(cell);
  if (words.length === 0) return '';
  const said = new Set(foldWords(told));
  return words.filter((word) => !said.has(word)).join(' ');
}
