import { unitWord } from '../cell-size.js';
import type { SheetTable } from '../grid.js';

const isUnit = (cell: string): boolean => unitWord(cell.replace(/[()[\]]/g, '').trim()) !== null;

/** A line of units under the headings ('cm', '(mm)', 'kg') goes into the headings above it. */
export function withUnitsRow(table: SheetTable): SheetTable {
  const [first, ...rows] = table.rows;
  const filled = first?.cells.filter((cell) => cell !== '') ?? [];
  if (first === undefined || filled.length === 0 || !filled.every(isUnit)) return table;
  const headings = table.headings.map((heading, at) => {
    const unit = (first.cells[at] ?? '').replace(/[()[\]]/g, '').trim();
    return unit === '' || heading === '' ? heading : `${heading} (${unit})`;
  });
  return { ...table, headings, rows };
}
