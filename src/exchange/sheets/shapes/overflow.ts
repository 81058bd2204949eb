import { headingCandidates } from '../../headings/heading-meaning.js';
import type { GridRow, SheetTable } from '../grid.js';
import { valueFit } from '../value-fit.js';

/**
 * Lines of a delimited file with more cells than headings: somebody typed the separator inside a cell and did not
 * quote it (`width` is how many headings there are; 'Smith, Anna', 'tall, thin'). The cells are joined where all columns then hold what their headings say.
 */
export function withoutOverflow(table: SheetTable, width: number, separator: string): SheetTable {
  if (width < 3) return table;
  const meanings = table.headings
    .slice(0, width)
    .map((h) => (h === '' ? [] : headingCandidates(h).slice(0, 3)));
  const rows = table.rows.map((row) => joined(row, width, separator, (cells) => agreement(meanings, cells)));
  return rows.every((row, at) => row === table.rows[at]) ? table : { ...table, rows };
}

function joined(
  row: GridRow,
  width: number,
  separator: string,
  score: (cells: readonly string[]) => number,
): GridRow {
  let filled = row.cells.length;
  while (filled > width && row.cells[filled - 1] === '') filled--;
  const more = filled - width;
  if (more <= 0 || more > 6) return row;
  const given = row.cells.slice(0, filled);
  const between = separator === ',' || separator === ';' ? `${separator} ` : separator;
  let best: { cells: string[]; score: number } | null = null;
  for (let at = width - 1; at >= 0; at--) {
    const cells = [
      ...given.slice(0, at),
      given.slice(at, at + more + 1).join(between),
      ...given.slice(at + more + 1),
    ];
    const own = score(cells);
    if (best === null || own > best.score + 1e-9) best = { cells, score: own };
  }
  return best === null ? row : { row: row.row, cells: best.cells };
}

/** How many cells hold what their headings say; an empty one counts half. */
function agreement(
  meanings: readonly (readonly { meaning: Parameters<typeof valueFit>[0] }[])[],
  cells: readonly string[],
): number {
  return cells.reduce((sum, cell, at) => {
    if (cell === '') return sum + 0.5;
    const fits = (meanings[at] ?? []).map(({ meaning }) => valueFit(meaning, [cell], '2099-12-31'));
    return sum + (fits.length === 0 ? 0.6 : Math.max(...fits));
  }, 0);
}
