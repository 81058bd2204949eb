import { isDay } from '../cell-date.js';
import { cellPair, cellSize } from '../cell-size.js';
import { saysNothing } from '../cell-words.js';
import type { SheetTable } from '../grid.js';

/** '182/181 (12.3.24)': a size, or two, and the day it was taken on. */
const SIZE_AND_DAY = /^([^()]*\d[^()]*)\(([^()]+)\)$/;

function apart(cell: string): readonly [size: string, day: string] | null {
  const [, size = '', day = ''] = SIZE_AND_DAY.exec(cell.trim()) ?? [];
  const isSize = cellSize(size) !== null || cellPair(size) !== null || size.includes('/');
  return isSize && isDay(day) ? [size.trim(), day.trim()] : null;
}

/** Sizes that have their day in the cell: the day becomes a column before them. */
export function withDaysOfSizesApart(table: SheetTable): SheetTable {
  let made = table;
  for (let at = table.headings.length - 1; at >= 0; at--) {
    const cells = made.rows.map(({ cells: row }) => row[at] ?? '');
    const filled = cells.filter((cell) => !saysNothing(cell));
    const parts = cells.map(apart);
    if (filled.length < 2 || parts.filter((part) => part !== null).length < filled.length * MOST) continue;
    const headings = [...made.headings.slice(0, at), 'Date', ...made.headings.slice(at)];
    const rows = made.rows.map(({ row, cells: own }, n) => ({
      row,
      cells: [
        ...made.headings.slice(0, at).map((_, column) => own[column] ?? ''),
        parts[n]?.[1] ?? '',
        parts[n]?.[0] ?? cells[n],
        ...own.slice(at + 1),
      ],
    }));
    made = { ...made, headings, rows };
  }
  return made;
}
const MOST = 0.6;
