import { headingCandidates } from '../../headings/heading-meaning.js';
import { cellDate, isDay, saidAge } from '../cell-date.js';
import type { GridRow, SheetTable } from '../grid.js';
import { isDitto } from './ditto.js';

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

/** '2025' on a line of its own: the days below it are of that year, those of the same line that come round before it of the next. */
export function withYearLines(table: SheetTable): SheetTable {
  const yearOf = ({ cells }: GridRow) => {
    const filled = cells.filter((cell) => cell !== '');
    return filled.length === 1 && /^(?:19|20)\d\d$/.test(filled[0]) ? filled[0] : null;
  };
  if (!table.rows.some((row) => yearOf(row) !== null)) return table;
  const lines = {
    ...table,
    rows: table.rows.filter(({ cells }) => cells.filter((c) => c !== '').length > 1),
  };
  const short = table.headings.flatMap((heading, at) => (isShortDate(lines, heading, at) ? [at] : []));
  if (short.length === 0) return table;
  let year: string | null = null;
  let first = '';
  const rows = table.rows.flatMap((line) => {
    const own = yearOf(line);
    year = own ?? year;
    if (own !== null || year === null) return own === null ? [line] : [];
    const cells = line.cells.map((cell, at) => {
      if (!short.includes(at) || !DAY_AND_MONTH.test(cell)) return cell;
      const day = (of: string) => cellDate(of, '2099-12-31')?.dayFirst ?? '';
      const dated = withYear(cell, year as string);
      if (at === short[0]) first = day(dated);
      return day(dated) < first ? withYear(cell, String(Number(year) + 1)) : dated;
    });
    return [{ ...line, cells }];
  });
  return { ...table, rows };
}

function isShortDate(table: SheetTable, heading: string, at: number): boolean {
  const cells = table.rows.map(({ cells: row }) => row[at] ?? '').filter((c) => c !== '' && !isDitto(c));
  const dated = headingCandidates(heading).some(
    (c) =>
      c.meaning.kind === 'field' &&
      /(?:^visit\.date|_date)$/.test(c.meaning.field) &&
      c.meaning.field !== 'child.birth_date',
  );
  // '7/12' beside '6 wks' or '6/52' is an age.
  const ages = cells.some((cell) => saidAge(cell) !== null || /^\d{1,2}\/52$/.test(cell));
  return dated && !ages && cells.filter((cell) => DAY_AND_MONTH.test(cell)).length >= cells.length * 0.6;
}

const withYear = (cell: string, year: string): string => {
  const mark = /^\d{1,2}([./-])/.exec(cell)?.[1];
  const written =
    /\p{L}/u.test(cell) || mark === undefined
      ? `${cell} ${year}`
      : `${cell.replace(/[./-]$/, '')}${mark}${year}`;
  return !isDay(written) ? cell : written;
};
