import { isDay } from '../cell-date.js';
import type { Grid, SheetTable } from '../grid.js';

const FEWEST_ROWS = 2;

/** A list without a line of headings: rows alike, with a column of dates. Its columns are asked one by one. */
export function withoutHeadings(grid: Grid): SheetTable | null {
  const width = Math.max(0, ...grid.rows.map(({ cells }) => cells.length));
  if (width < 3 || grid.rows.length < FEWEST_ROWS) return null;
  const dated = Array.from(
    { length: width },
    (_, at) => grid.rows.filter(({ cells }) => /[-/. ]/.test(cells[at] ?? '') && isDay(cells[at])).length,
  );
  if (Math.max(...dated) < grid.rows.length * 0.8) return null;
  return { file: grid.file, headingRow: 0, headings: new Array(width).fill(''), rows: grid.rows, titles: [] };
}
