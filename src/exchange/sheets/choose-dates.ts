import type { IsoDate } from '../../records/dates.js';
import { dateOrderHint } from '../headings/date-format-hint.js';
import { foldText } from '../headings/fold-words.js';
import { choices, inShortWords } from './answer-choices.js';
import { cellDate } from './cell-date.js';
import { saysNothing } from './cell-words.js';
import { type Column, letters } from './column.js';
import type { SheetTable } from './grid.js';
import type { Asker } from './questions.js';
import { sheetLanguages } from './sheet-languages.js';

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

/**
 * One order of day and month for each column of dates, from the cells that can be read one way only; a column without
 * such a cell takes the order of the other columns, else of the sheet's language, else the clinic is asked once. A
 * column that has both orders is said to have them.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the evidence for an order of day and month, from the strongest down
export function chooseDates(
  table: SheetTable,
  columns: readonly Column[],
  asker: Asker,
  today: IsoDate,
  given: Order | null,
  notices: string[],
): Map<number, ColumnOrder> {
  const orders = new Map<number, ColumnOrder>();
  const dated = columns
    .filter(isDateColumn)
    .map((column) => ({ column, evidence: evidenceOf(table, column, today) }));
  const sure = dated.filter(({ evidence }) => evidence.dayFirst > 0 !== evidence.monthFirst > 0);
  const shared = new Set(sure.map(({ evidence }) => (evidence.dayFirst > 0 ? 'dmy' : 'mdy')));
  for (const { column, evidence } of dated) {
    const name = column.heading || letters(column.index);
    const { dayFirst, monthFirst, open } = evidence;
    const hinted = dateOrderHint(column.heading);
    if (given !== null) orders.set(column.index, given);
    else if (dayFirst > 0 && monthFirst > 0) {
      const answer = open === 0 ? null : asker.ask(question(table, name, evidence, null));
      const why = `is in a column with both day-first (${dayFirst}) and month-first (${monthFirst}) dates`;
      orders.set(column.index, answer === 'dmy' || answer === 'mdy' ? answer : { why });
    } else if (dayFirst > 0) orders.set(column.index, 'dmy');
    else if (monthFirst > 0) orders.set(column.index, 'mdy');
    else if (open === 0) orders.set(column.index, 'dmy');
    else if (hinted !== null) orders.set(column.index, hinted);
    else if (shared.size === 1) {
      const [order] = shared;
      orders.set(column.index, order);
      notices.push(
        `${table.file}: dates under "${name}" are read ${inShortWords(order)}, as in the other columns.`,
      );
    } else {
      const language = sheetLanguages(table);
      // No country whose headings are in these five languages writes the month first.
      if (!language.includes('en')) orders.set(column.index, 'dmy');
      else {
        const answer = asker.ask(question(table, name, evidence, null));
        orders.set(
          column.index,
          answer === 'dmy' || answer === 'mdy' ? answer : { why: 'can be read day first or month first' },
        );
      }
    }
    if (orders.get(column.index) === 'mdy' && monthFirst > 0)
      notices.push(`${table.file}: dates under "${name}" are read month first.`);
  }
  return orders;
}

function question(table: SheetTable, name: string, { open, examples }: Evidence, suggested: string | null) {
  return {
    id: `dates:${foldText(name)}`,
    file: table.file,
    asks: `Dates under "${name}" can be read two ways: does the day or the month come first?`,
    examples: examples.slice(0, 3),
    cells: open,
    suggested,
    choices: choices(['dmy', 'mdy']),
  };
}

/** A reading that lies after today counts as one that cannot be. */
function evidenceOf(table: SheetTable, column: Column, today: IsoDate): Evidence {
  const evidence: Evidence = { dayFirst: 0, monthFirst: 0, open: 0, examples: [] };
  for (const { cells } of table.rows) {
    const cell = (cells[column.index] ?? '').trim();
    if (cell === '' || saysNothing(cell)) continue;
    const date = cellDate(cell, today);
    if (date === null || date.dayFirst === date.monthFirst) continue;
    const day = date.dayFirst !== null && date.dayFirst <= today;
    const month = date.monthFirst !== null && date.monthFirst <= today;
    // Dots stand in dates with the day first only.
    if (
      /^\d{1,2}\.\s?\d{1,2}\./.test(cell) ||
      (date.dayFirst !== null && date.monthFirst === null) ||
      (day && !month)
    )
      evidence.dayFirst++;
    else if (date.dayFirst === null || (month && !day)) evidence.monthFirst++;
    else {
      evidence.open++;
      evidence.examples.push(cell);
    }
  }
  return evidence;
}

/** The date of a cell in its column's order; why not, where it cannot be read; null for nothing. */
export function dateOf(
  cell: string,
  order: ColumnOrder | undefined,
  today: IsoDate,
): { date: IsoDate; monthOnly: boolean } | { why: string } | null {
  if (saysNothing(cell)) return null;
  const date = cellDate(cell, today);
  if (date === null) return { why: 'is not a date' };
  const { dayFirst, monthFirst, monthOnly } = date;
  if (dayFirst !== null && dayFirst === monthFirst) return { date: dayFirst, monthOnly };
  if (/^\d{1,2}\.\s?\d{1,2}\./.test(cell.trim()) && dayFirst !== null) return { date: dayFirst, monthOnly };
  if (order === 'mdy')
    return monthFirst
      ? { date: monthFirst, monthOnly }
      : { why: `is no date with the month first, as the column has them` };
  if (order === 'dmy' || order === undefined)
    return dayFirst
      ? { date: dayFirst, monthOnly }
      : { why: 'is no date with the day first, as the column has them' };
  if (dayFirst === null || monthFirst === null)
    return { date: (dayFirst ?? monthFirst) as IsoDate, monthOnly };
  return { why: order.why };
}
