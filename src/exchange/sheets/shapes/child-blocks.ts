import type { Grid, GridRow } from '../grid.js';
import { namesChild } from './child-above.js';

/**
 * A sheet with a block a child, each under a line that names it, as a grid a block. Headings that stand once at the
 * top hold for every block.
 */
export function childBlocks(grid: Grid, isHeading: (row: GridRow) => boolean): Grid[] {
  const named = grid.rows.map(({ cells }) => cells.filter((c) => c !== '').length <= 8 && namesChild(cells));
  const starts = named.flatMap((is, at) => (is && !named[at - 1] ? [at] : []));
  if (starts.length < 2) return [grid];
  const top = grid.rows.slice(0, starts[0]);
  const shared = top.filter(isHeading);
  return starts.map((start, n) => {
    const rows = grid.rows.slice(start, starts[n + 1]);
    const has = rows.some((row) => isHeading(row) && !namesChild(row.cells));
    const lead = rows.findIndex(({ cells }) => !namesChild(cells));
    const at = lead === -1 ? rows.length : lead;
    return { ...grid, rows: has ? rows : [...rows.slice(0, at), ...shared, ...rows.slice(at)] };
  });
}
