import { columnName } from '../../records/about-field.js';
import type { CaseloadContext } from '../../records/check/caseload-faults.js';
import { CANNOT_BE, type Fault } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { ownValue } from '../own-value.js';
import type { RefusedRow } from '../refused-row.js';
import { remembered } from '../remembered.js';
import { type Column, columnOf, columns, plainWord, type TableName } from './columns.js';
import { contentId, uniqueId } from './content-id.js';
import { type DateOrder, readDate } from './read-date.js';
import { readNumber } from './read-number.js';
import type { TextTable } from './read-table.js';

const WORDS_YES = ['yes', 'y', 'true', '1', 'x', 'ja', 'oui'];
const WORDS_NO = ['no', 'n', 'false', '0', 'nein', 'non'];
const WORDS_NOTHING = ['', '-', '–', 'n/a', 'na', 'none', 'null'];

/** A word that can be chosen, plain: the same few in every row. */
const plainOption = remembered(plainWord);

export interface ReadSettings extends CaseloadContext {
  readonly dateOrder: DateOrder;
  /** Unit of lengths where no cell, column or heading says one; null to refuse such rows. */
  readonly lengthUnit: string | null;
  /** Device families that can be named, with where each is worn. */
  readonly rules: FitRules;
}

/** Where each known column stands in a table, and which headings are left over. */
export interface TableLayout {
  readonly table: TableName;
  readonly file: string;
  readonly at: ReadonlyMap<string, { readonly index: number; readonly heading: string }>;
  readonly others: readonly { readonly index: number; readonly heading: string }[];
}

/** Headings to columns; the first of two headings that mean the same column wins, the other is kept as extra. */
export function tableLayout(table: TableName, text: TextTable): TableLayout {
  const at = new Map<string, { index: number; heading: string }>();
  const others: { index: number; heading: string }[] = [];
  const exact = new Set(text.headings.map(plainWord));
  text.headings.map(plainCell).forEach((heading, index) => {
    const column = columnOf(table, heading);
    const byAlias = column !== null && plainWord(heading) !== column.name;
    if (column && !at.has(column.name) && !(byAlias && exact.has(column.name))) {
      at.set(column.name, { index, heading });
    } else if (heading !== '') others.push({ index, heading });
  });
  return { table, file: text.file, at, others };
}

/** Reads one row column by column and collects every refusal, so that a person sees all that is wrong at once. */
export class RowReader {
  readonly refused: RefusedRow[] = [];
  constructor(
    readonly layout: TableLayout,
    readonly row: number,
    readonly cells: readonly string[],
    private readonly settings: Pick<ReadSettings, 'dateOrder' | 'birthDateOf' | 'deviceOf'>,
    /** Ids made of content so far, of the whole table. */
    private readonly made: Set<string> = new Set(),
  ) {}

  get ok(): boolean {
    return this.refused.length === 0;
  }

  /** The cell as text, '' where the column or the cell is missing. */
  text(name: string): string {
    const place = this.layout.at.get(name);
    return place ? plainCell(this.cells[place.index] ?? '') : '';
  }

  refuse(name: string, why: string, accepted = this.column(name)?.accepted ?? ''): null {
    const column = this.layout.at.get(name)?.heading ?? name;
    return this.refuseCell(column, this.text(name), why, accepted);
  }

  refuseCell(column: string, given: string, why: string, accepted: string): null {
    this.refused.push({ file: this.layout.file, row: this.row, column, given, why, accepted });
    return null;
  }

  /**
   * Refuses what a record cannot be, in the words of every other door. A fault's field ('stages.cast') is the column of that name, unless
   * `headings` says where it stood.
   */
  refuseFaults(faults: Iterable<Fault>, headings: Readonly<Record<string, string>> = {}): void {
    for (const { field, given = '', why = CANNOT_BE, accepted } of faults) {
      const heading = ownValue(headings, field);
      if (heading === undefined) this.refuse(columnName(field.split('.').at(-1) ?? field), why, accepted);
      else this.refuseCell(heading, given, why, accepted);
    }
  }

  /** An id, or another short text that must be there. */
  required(name: string): string {
    const text = this.text(name);
    if (text === '') this.refuse(name, 'is missing');
    return this.upTo(name, 80);
  }

  upTo(name: string, longest = Number.POSITIVE_INFINITY): string {
    const text = this.text(name);
    if (text.length > longest) this.refuse(name, 'is too long', `at most ${longest} characters`);
    return text;
  }

  /** The row's own id, else one of its content, counted on where an earlier row without one made the same. */
  id(prefix: string, ...parts: readonly (string | number | null)[]): string {
    return this.upTo('id', 80) || this.madeId(prefix, ...parts);
  }

  madeId(prefix: string, ...parts: readonly (string | number | null)[]): string {
    return uniqueId(this.made, contentId(prefix, ...parts));
  }

  yesNo(name: string, whenEmpty: boolean): boolean {
    const text = this.text(name);
    const word = plainWord(text);
    if (text === '') return whenEmpty;
    if (WORDS_YES.includes(word)) return true;
    if (!WORDS_NO.includes(word)) this.refuse(name, 'is neither yes nor no');
    return false;
  }

  /** The child that the row is of, and when it was born; refused where none of that id was taken. */
  child(): readonly [id: string, birthDate: IsoDate | undefined] {
    return this.of('child', this.settings.birthDateOf);
  }

  /** The same of a device. */
  device(): readonly [id: string, device: Device | undefined] {
    return this.of('device', this.settings.deviceOf);
  }

  private of<T>(whom: 'child' | 'device', known: (id: string) => T | undefined) {
    const id = this.required(`${whom}_id`);
    const found = known(id);
    if (id !== '' && found === undefined)
      this.refuse(`${whom}_id`, `is not the id of a ${whom} that was taken`);
    return [id, found] as const;
  }

  /** One of a list of words, by the words themselves or by aliases; `whenEmpty` where nothing is written. */
  oneOf<T extends string, E>(
    name: string,
    words: readonly T[],
    whenEmpty: E,
    aliases: Readonly<Record<string, T>> = {},
  ): T | E {
    const text = this.text(name).trim();
    if (text === '') return whenEmpty;
    const word = plainWord(text);
    const found = words.find((w) => plainOption(w) === word) ?? ownValue(aliases, word);
    if (found !== undefined) return found;
    if (!WORDS_NOTHING.includes(text.toLowerCase()))
      this.refuse(name, 'is not one of the words doorpost knows');
    return whenEmpty;
  }

  number(name: string, min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY): number | null {
    const text = this.text(name);
    if (text === '') return null;
    const value = readNumber(text);
    if (value === null) return this.refuse(name, 'is not a number');
    if (value < min || value > max) return this.refuse(name, 'is out of range');
    return value;
  }

  /** A calendar date; null where empty or refused. */
  date(name: string): IsoDate | null {
    const text = this.text(name);
    if (text === '') return null;
    const date = readDate(text, this.settings.dateOrder);
    return typeof date === 'string' ? date : this.refuse(name, date.why);
  }

  requiredDate(name: string): IsoDate | null {
    if (this.text(name) === '') return this.refuse(name, 'is missing');
    return this.date(name);
  }

  /** What stands in the columns doorpost does not read; empty cells are left out. */
  extra(except: ReadonlySet<number> = new Set()): Record<string, string> {
    const rest = this.layout.others.filter(({ index }) => !except.has(index) && this.cells[index]);
    return Object.fromEntries(
      rest.map(({ index, heading }) => [heading.replace(/^extra:/, ''), plainCell(this.cells[index])]),
    );
  }

  private column(name: string): Column | undefined {
    return columns[this.layout.table].find((column) => column.name === name);
  }
}

/**
 * What a spreadsheet runs as a formula: = + - @ at the start, also fullwidth as some keyboards write them, after quotes
 * of ours or after a tab, a line's end or a space that it drops.
 */
const RUN = /^'*[\s\uFEFF]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^'*[\t\r\n]/;

/** Undoes the quote that keeps a spreadsheet from running a cell as a formula (see `safeCell`). */
export function plainCell(cell: string): string {
  return cell.startsWith("'") && RUN.test(cell) ? cell.slice(1) : cell;
}

/** A text cell that no spreadsheet runs as a formula. */
export function safeCell(text: string): string {
  return RUN.test(text) ? `'${text}` : text;
}
