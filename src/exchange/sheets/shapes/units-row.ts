import type { Range } from '../../csv/read-table.js';
import { unitWord } from '../cell-size.js';
import type { SheetTable } from '../grid.js';

const isUnit = (cell: string): boolean => unitWord(cell.replace(/[()[\]]/g, '').trim()) !== null;

/** A line of units under the headings ('cm', '(mm)', 'kg'), or one merged over several, goes into the headings above it. */
export function withUnitsRow(table: SheetTable, merged: readonly Range[]): SheetTable {
  const [first, ...rows] = table.rows;
  const filled = first?.cells.filter((cell) => cell !== '') ?? [];
  if (first === undefined || filled.length === 0 || !filled.every(isUnit)) return table;
  const over = (at: number) =>
    merged.find((m) => m.top === first.row && at > m.left && at <= m.right)?.left ?? at;
  const headings = table.headings.map((heading, at) => {
    const unit = (first.cells[over(at)] ?? '').replace(/[()[\]]/g, '').trim();
    return unit === '' || heading === '' ? heading : `${heading} (${unit})`;
  });
  return { ...table, headings, rows };
}
