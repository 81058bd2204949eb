import type { IsoDate } from '../../records/dates.js';
import { dateOrderHint } from '../headings/date-format-hint.js';
import { foldText } from '../headings/fold-words.js';
import { headingDate } from '../headings/written-date.js';
import { choices, inShortWords } from './answer-choices.js';
import { cellDate } from './cell-date.js';
import { saysNothing } from './cell-words.js';
import { type Column, letters } from './column.js';
import type { SheetTable } from './grid.js';
import type { Asker } from './questions.js';
import { sheetLanguages } from './sheet-languages.js';

/** The order is asked: what hangs on the answer is not refused as well. */
export const WAITS_FOR_ORDER = 'can be read day first or month first';
export type Order = 'dmy' | 'mdy';
/** How a column's dates are read: an order, or why its ambiguous ones cannot be. */
export type ColumnOrder = Order | { readonly why: string };

const isDateColumn = (c: Column): boolean =>
  c.meaning?.kind === 'device' ||
  (c.meaning?.kind === 'field' &&
    (c.meaning.field.endsWith('_date') ||
      c.meaning.field === 'visit.date' ||
      c.meaning.field === 'marker.menarche'));

interface Evidence {
  dayFirst: number;
  monthFirst: number;
  open: number;
  examples: string[];
}

/** Dates that share one order of day and month: those down a column, or those in the headings. */
interface Dated {
  readonly name: string;
  readonly columns: readonly Column[];
  readonly texts: readonly string[];
}

function datedIn(table: SheetTable, columns: readonly Column[]): Dated[] {
  const across = columns.flatMap((column) => {
    const date = column.meaning?.kind === 'reading' ? headingDate(column.heading) : null;
    return date === null ? [] : [{ column, date }];
  });
  const down = columns.filter(isDateColumn).map((column) => ({
    name: column.heading || letters(column.index),
    columns: [column],
    texts: table.rows.map(({ cells }) => (cells[column.index] ?? '').trim()),
  }));
  if (across.length === 0) return down;
  const name = across[0].column.heading;
  return [...down, { name, columns: across.map((a) => a.column), texts: across.map((a) => a.date) }];
}

/** The orders that dates of a table leave no doubt about. */
export function sureOrders(table: SheetTable, columns: readonly Column[], today: IsoDate): Order[] {
  return ordersIn(datedIn(table, columns).map(({ texts }) => evidenceOf(texts, today)));
}

const ordersIn = (evidences: readonly Evidence[]): Order[] => {
  const sure = evidences.filter(({ dayFirst, monthFirst }) => dayFirst > 0 !== monthFirst > 0);
  return [...new Set(sure.map(({ dayFirst }) => (dayFirst > 0 ? 'dmy' : 'mdy') as Order))];
};

/**
 * One order of day and month for each column of dates, from the cells that can be read one way only; a column without
 * such a cell takes the order of the other columns, else of the file's other tables, else of the sheet's language, else the clinic is asked once. In a
 * column that has both orders a date that can be read two ways is refused: no one answer would hold for all of them.
 */
export function chooseDates(
  table: SheetTable,
  columns: readonly Column[],
  asker: Asker,
  today: IsoDate,
  given: Order | null,
  beside: readonly Order[],
  notices: string[],
): Map<number, ColumnOrder> {
  const dated = datedIn(table, columns).map((of) => ({ of, evidence: evidenceOf(of.texts, today) }));
  const own = ordersIn(dated.map(({ evidence }) => evidence));
  const shared = own.length > 0 ? own : beside;
  const orders = new Map<number, ColumnOrder>();
  // One answer is enough for the columns of a table, unless the clinic has told them apart.
  let first: string | null = null;
  const answered = ({ name }: Dated, evidence: Evidence): ColumnOrder => {
    const own = questionOf(name);
    const id = asker.known(own, table.file) === null ? (first ?? own) : own;
    first ??= id;
    const answer = asker.ask({ ...question(table, name, evidence), id });
    return answer === 'dmy' || answer === 'mdy' ? answer : { why: WAITS_FOR_ORDER };
  };
  for (const { of, evidence } of dated) {
    // 2024-03-05 and 13 Mar 24 have no order to share with days that stand in other cells.
    if (given === null && evidence.dayFirst + evidence.monthFirst + evidence.open === 0) continue;
    const order = given ?? orderOf(of, evidence, shared, table, notices) ?? answered(of, evidence);
    for (const column of of.columns) orders.set(column.index, order);
    if (order === 'mdy' && evidence.monthFirst > 0) tellOnce(notices, table, 'dates are read month first.');
  }
  return orders;
}

/** What the dates, their heading, the other columns or the sheet's language tell; null where only the clinic can say. */
function orderOf(
  { name }: Dated,
  evidence: Evidence,
  shared: readonly Order[],
  table: SheetTable,
  notices: string[],
): ColumnOrder | null {
  const { dayFirst, monthFirst } = evidence;
  if (dayFirst > 0 && monthFirst > 0)
    return { why: `is in a column with both day-first (${dayFirst}) and month-first (${monthFirst}) dates` };
  if (dayFirst > 0) return 'dmy';
  if (monthFirst > 0) return 'mdy';
  const hinted = dateOrderHint(name);
  if (hinted !== null) return hinted;
  if (shared.length === 1) {
    const [order] = shared;
    const read = `are read ${inShortWords(order)}, as in the other columns`;
    tellOnce(notices, table, `dates that can be read two ways ${read}.`);
    return order;
  }
  // No country whose headings are in the five other languages writes the month first.
  return sheetLanguages(table).includes('en') ? null : 'dmy';
}

const questionOf = (name: string): string => `dates:${foldText(name)}`;

function question(table: SheetTable, name: string, { open, examples }: Evidence) {
  return {
    id: questionOf(name),
    file: table.file,
    asks: `Dates such as those under "${name}" can be read two ways: does the day or the month come first?`,
    examples,
    cells: open,
    suggested: null,
    choices: choices(['dmy', 'mdy']),
  };
}

/** The order a cell's date can only have, null where either can be. A reading that lies after today counts as one that cannot be. */
function onlyOrder(
  cell: string,
  date: { readonly dayFirst: IsoDate | null; readonly monthFirst: IsoDate | null },
  today: IsoDate,
): Order | null {
  const day = date.dayFirst !== null && date.dayFirst <= today;
  const month = date.monthFirst !== null && date.monthFirst <= today;
  // Dots stand in dates with the day first only.
  if (
    /^\d{1,2}\.\s?\d{1,2}\./.test(cell) ||
    (date.dayFirst !== null && date.monthFirst === null) ||
    (day && !month)
  )
    return 'dmy';
  return date.dayFirst === null || (month && !day) ? 'mdy' : null;
}

function evidenceOf(texts: readonly string[], today: IsoDate): Evidence {
  const evidence: Evidence = { dayFirst: 0, monthFirst: 0, open: 0, examples: [] };
  for (const cell of texts) {
    if (cell === '' || saysNothing(cell)) continue;
    const date = cellDate(cell, today);
    if (date === null || date.dayFirst === date.monthFirst) continue;
    const order = onlyOrder(cell, date, today);
    if (order === 'dmy') evidence.dayFirst++;
    else if (order === 'mdy') evidence.monthFirst++;
    else {
      evidence.open++;
      if (evidence.examples.length < 3) evidence.examples.push(cell);
    }
  }
  return evidence;
}

/** The date of a cell in its column's order; why not, where it cannot be read; null for nothing. */
export function dateOf(
  cell: string,
  order: ColumnOrder | undefined,
  today: IsoDate,
): { date: IsoDate; monthOnly: boolean; about: boolean } | { why: string } | null {
  if (saysNothing(cell)) return null;
  const read = cellDate(cell, today);
  if (read === null) return { why: 'is not a date' };
  const { dayFirst, monthFirst, monthOnly, about } = read;
  const dated = (date: IsoDate | null, why: string) => (date === null ? { why } : { date, monthOnly, about });
  const dotted = /^\D*\d{1,2}\.\s?\d{1,2}\./.test(cell.trim()) && dayFirst !== null;
  if (dotted || (dayFirst !== null && dayFirst === monthFirst)) return dated(dayFirst, '');
  if (order === 'mdy') return dated(monthFirst, 'is no date with the month first, as the column has them');
  if (order === 'dmy' || order === undefined)
    return dated(dayFirst, 'is no date with the day first, as the column has them');
  const one = dayFirst === null || monthFirst === null ? (dayFirst ?? monthFirst) : null;
  return dated(one, order.why);
}

/** What is told of days that are less than a day, or written with a doubt. */
export function roughDays(
  { heading }: Column,
  { monthOnly, about }: { readonly monthOnly: boolean; readonly about: boolean },
): string[] {
  return [
    ...(monthOnly
      ? [`months without a day under "${heading}" are taken as their 15th, seasons as their middle.`]
      : []),
    ...(about ? [`days under "${heading}" that are written as about are taken as they stand.`] : []),
  ];
}

/** The order of all dates of a sheet where they have one; else day first. */
export function sharedOrder(orders: ReadonlyMap<number, ColumnOrder>): Order {
  const found = new Set([...orders.values()].filter((order) => typeof order === 'string'));
  return found.size === 1 ? [...found][0] : 'dmy';
}

/** Of a file with a block a child, once and not of every block. */
function tellOnce(notices: string[], { file }: SheetTable, text: string): void {
  const told = `${file}: ${text}`;
  if (!notices.includes(told)) notices.push(told);
}
