import { counted } from '../../../records/counted.js';
import { foldText } from '../../headings/fold-words.js';
import { wordSet } from '../../headings/phrase-table.js';
import type { SheetTable } from '../grid.js';

const dittoWords = wordSet((v) => v.ditto);
/** '"', '″', '-"-', '〃' alone in a cell. */
const MARK = /^[-–—\s]*(?:["”“″„〃]|'')[-–—\s]*$/;

export const isDitto = (cell: string): boolean =>
  cell !== '' && cell.length <= 20 && !/\d/.test(cell) && (MARK.test(cell) || dittoWords.has(foldText(cell)));

/** A ditto mark or 'idem' stands for what the cell above it says. */
export function withoutDittos(table: SheetTable, notices: string[]): SheetTable {
  let count = 0;
  let above: readonly string[] = [];
  /** The last line of the same child, by the line's first cell: 'idem' under another child means this child's own. */
  const ofChild = new Map<string, readonly string[]>();
  const keep = (cells: readonly string[]) => {
    if (cells[0]) ofChild.set(cells[0], cells);
  };
  const rows = table.rows.map((row) => {
    if (row.cells.some(isDitto)) {
      const cells = row.cells.map((cell, at) => {
        const own = MARK.test(cell) ? undefined : ofChild.get(row.cells[0]);
        const from = own?.[at] ? own : above;
        if (!isDitto(cell) || (from[at] ?? '') === '') return cell;
        count++;
        return from[at];
      });
      above = cells;
      keep(cells);
      return { row: row.row, cells };
    }
    above = row.cells;
    keep(above);
    return row;
  });
  if (count === 0) return table;
  notices.push(
    `${table.file}: ${counted(count, 'cell says', 'cells say')} "as above" and ${count === 1 ? 'was' : 'were'} read as the cell above.`,
  );
  return { ...table, rows };
}
