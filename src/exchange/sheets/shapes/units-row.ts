import type { Range } from '../../csv/read-table.js';
import { cellAge } from '../cell-date.js';
import { unitWord } from '../cell-size.js';
import type { SheetTable } from '../grid.js';

const bare = (cell: string): string => cell.replace(/[()[\]]/g, '').trim();
/** Of what is no size: degrees, per cent, years. */
const isOther = (cell: string): boolean => /^[°º%]$/.test(bare(cell)) || cellAge(`1 ${bare(cell)}`) !== null;
const isUnit = (cell: string): boolean => unitWord(bare(cell)) !== null || isOther(cell);

/** A line of units under the headings ('cm', '(mm)', 'kg'), or one merged over several, goes into the headings above it. */
export function withUnitsRow(table: SheetTable, merged: readonly Range[]): SheetTable {
  const [first, ...rows] = table.rows;
  const filled = first?.cells.filter((cell) => cell !== '') ?? [];
  if (first === undefined || filled.length === 0 || !filled.every(isUnit) || filled.every(isOther))
    return table;
  const over = (at: number) =>
    merged.find((m) => m.top === first.row && at > m.left && at <= m.right)?.left ?? at;
  const headings = table.headings.map((heading, at) => {
    const unit = bare(first.cells[over(at)] ?? '');
    return unit === '' || heading === '' || unitWord(unit) === null ? heading : `${heading} (${unit})`;
  });
  return { ...table, headings, rows };
}
