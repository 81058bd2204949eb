import type { Grid, GridRow } from '../grid.js';
import { namesChild, saysWho } from './child-above.js';
import { isKeyValueLine } from './key-value-line.js';

/** A sheet with a block a child has two of them in its first lines; a long list is not looked through for more. */
const LOOK_AT = 500;

/**
 * A sheet with a block a child, each under a line that names it, as a grid a block. Headings that stand once at the
 * top hold for every block.
 */
export function childBlocks(grid: Grid, isHeading: (row: GridRow) => boolean): Grid[] {
  if (blockStarts(grid.rows.slice(0, LOOK_AT)).length < 2) return [grid];
  const starts = blockStarts(grid.rows);
  const top = grid.rows.slice(0, starts[0]);
  // Under a heading that says whose each line is, a child called 'Patient 12' begins no block.
  const lines = grid.rows
    .slice(0, starts[0] + 1)
    .filter((row) => isHeading(row) && !isKeyValueLine(row.cells));
  if (lines.some(({ cells }) => cells.some(saysWho))) return [grid];
  const shared = top.filter(isHeading);
  return starts.map((start, n) => {
    const rows = grid.rows.slice(start, starts[n + 1]);
    const has = rows.some((row) => isHeading(row) && !namesChild(row.cells));
    const lead = rows.findIndex(({ cells }) => !namesChild(cells));
    const at = lead === -1 ? rows.length : lead;
    return { ...grid, rows: has ? rows : [...rows.slice(0, at), ...shared, ...rows.slice(at)] };
  });
}

function blockStarts(rows: readonly GridRow[]): number[] {
  const named = rows.map(({ cells }) => cells.filter((c) => c !== '').length <= 8 && namesChild(cells));
  return named.flatMap((is, at) => (is && !named[at - 1] ? [at] : []));
}
