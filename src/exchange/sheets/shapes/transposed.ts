import { fieldHeaded, headingStrength } from '../../headings/heading-meaning.js';
import { isDay } from '../cell-date.js';
import type { Grid } from '../grid.js';

const FEWEST = 3;
/** Nobody says more of a child than this down the side of a sheet. */
const MOST = 120;

/**
 * A sheet with a column a child and what is said of them down the left side, turned so that it has a row a child.
 * Only where the words of a heading stand in the first column, a birth date among them, and none in the first line.
 */
export function upright(grid: Grid): Grid {
  const start = grid.rows.findIndex(({ cells }) => cells.filter((c) => c !== '').length >= 2);
  if (start === -1) return grid;
  const body = grid.rows.slice(start);
  if (body.length > MOST) return grid;
  const width = Math.max(...body.map(({ cells }) => cells.length));
  const labels = body.map(({ cells }) => cells[0] ?? '');
  const known = labels.filter(isHeading);
  const birth = body.find(({ cells }) => fieldHeaded(cells[0] ?? '') === 'child.birth_date');
  if (width < 3 || known.length < FEWEST || known.length < labels.filter((l) => l !== '').length * 0.6)
    return grid;
  const dated = birth?.cells.slice(1).filter((cell) => cell !== '') ?? [];
  if (dated.length < 2 || !dated.every(isDay)) return grid;
  if ((body[0].cells.slice(1) ?? []).some((cell) => cell !== '' && isHeading(cell))) return grid;
  const first = labels[0] === '' || !isHeading(labels[0]) ? ['Name', ...labels.slice(1)] : labels;
  const rows = Array.from({ length: width - 1 }, (_, n) => ({
    // The column's number stands for the row's: that is what the sheet shows.
    row: n + 2,
    cells: body.map(({ cells }) => cells[n + 1] ?? ''),
  })).filter(({ cells }) => cells.some((cell) => cell !== ''));
  return {
    ...grid,
    rows: [...grid.rows.slice(0, start), { row: 1, cells: first }, ...rows],
    merged: [],
    separator: undefined,
  };
}

const isHeading = (text: string): boolean => headingStrength(text) >= 0.75;
