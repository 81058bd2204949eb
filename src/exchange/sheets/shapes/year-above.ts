import { headingCandidates } from '../../headings/heading-meaning.js';
import { cellDate } from '../cell-date.js';
import type { SheetTable } from '../grid.js';

/** '12 Jan', '3. Juli', '03.02.', '12/01': a day and a month. */
const DAY_AND_MONTH = /^(?:\d{1,2}(?:st|nd|rd|th|\.)?[-/. ]*\p{L}{3,12}\.?|\d{1,2}[./-]\s?\d{1,2}[./-]?)$/u;

/** Days without a year, where a line above or the sheet's name has exactly one: they are of that year. */
export function withYearAbove(table: SheetTable, above: readonly string[]): SheetTable {
  const years = new Set(
    [...above, ...table.titles].flatMap((text) => text.match(/(?<![\d./-])(?:19|20)\d\d(?![\d./-])/g) ?? []),
  );
  if (years.size !== 1) return table;
  const [year] = years;
  const short = table.headings.flatMap((heading, at) => (isShortDate(table, heading, at) ? [at] : []));
  if (short.length === 0) return table;
  const rows = table.rows.map(({ row, cells }) => ({
    row,
    cells: cells.map((cell, at) =>
      short.includes(at) && DAY_AND_MONTH.test(cell) ? withYear(cell, year) : cell,
    ),
  }));
  return { ...table, rows };
}

function isShortDate(table: SheetTable, heading: string, at: number): boolean {
  const cells = table.rows.map(({ cells: row }) => row[at] ?? '').filter((cell) => cell !== '');
  const dated = headingCandidates(heading).some(
    (c) =>
      c.meaning.kind === 'field' &&
      /(?:^visit\.date|_date)$/.test(c.meaning.field) &&
      c.meaning.field !== 'child.birth_date',
  );
  return dated && cells.filter((cell) => DAY_AND_MONTH.test(cell)).length >= cells.length * 0.6;
}

const withYear = (cell: string, year: string): string => {
  const mark = /^\d{1,2}([./-])/.exec(cell)?.[1];
  const written =
    /\p{L}/u.test(cell) || mark === undefined
      ? `${cell} ${year}`
      : `${cell.replace(/[./-]$/, '')}${mark}${year}`;
  return cellDate(written, '2099-12-31') === null ? cell : written;
};
