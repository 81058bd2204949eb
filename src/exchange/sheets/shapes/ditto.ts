import { foldText } from '../../headings/fold-words.js';
import { wordSet } from '../../headings/phrase-table.js';
import type { SheetTable } from '../grid.js';

const dittoWords = wordSet((v) => v.ditto);
/** '"', '″', '-"-', '〃' alone in a cell. */
const MARK = /^[-–—\s]*(?:["”“″„〃]|'')[-–—\s]*$/;

const isDitto = (cell: string): boolean =>
  cell !== '' && cell.length <= 20 && (MARK.test(cell) || dittoWords.has(foldText(cell)));

/** A ditto mark or 'idem' stands for what the cell above it says. */
export function withoutDittos(table: SheetTable, notices: string[]): SheetTable {
  let count = 0;
  let above: readonly string[] = [];
  const rows = table.rows.map((row) => {
    if (row.cells.some(isDitto)) {
      const cells = row.cells.map((cell, at) => {
        if (!isDitto(cell) || (above[at] ?? '') === '') return cell;
        count++;
        return above[at];
      });
      above = cells;
      return { row: row.row, cells };
    }
    above = row.cells;
    return row;
  });
  if (count === 0) return table;
  notices.push(
    `${table.file}: ${count} ${count === 1 ? 'cell says' : 'cells say'} "as above" and ${count === 1 ? 'was' : 'were'} read as the cell above.`,
  );
  return { ...table, rows };
}
