import { headingCandidates } from '../../headings/heading-meaning.js';
import { cellSize } from '../cell-size.js';
import { saysNothing, sideIn } from '../cell-words.js';
import type { SheetTable } from '../grid.js';

/** Measures down a column and their values under 'L' and 'R', as a row a value with its side beside it. */
export function withSidesAsRows(table: SheetTable): SheetTable {
  const { headings, rows } = table;
  const sided = headings.flatMap((heading, at) => {
    const side = sideIn(heading);
    return (side === 'left' || side === 'right') && holds(table, at, (cell) => cellSize(cell) !== null)
      ? [{ at, side }]
      : [];
  });
  if (sided.length !== 2 || sided[0].side === sided[1].side) return table;
  const measured = headings.findIndex((_, at) => holds(table, at, namesSize, MOST));
  if (measured === -1) return table;
  const values = [
    ...sided,
    ...withoutSide(
      table,
      sided.map(({ at }) => at),
    ),
  ];
  const left = headings.map((_, at) => at).filter((at) => !values.some((s) => s.at === at));
  return {
    ...table,
    headings: [...left.map((at) => (at === measured ? 'Measure' : headings[at])), 'Side', 'Value'],
    rows: rows.flatMap(({ row, cells }) => {
      const own = left.map((at) => cells[at] ?? '');
      const filled = values.filter(({ at }) => !saysNothing(cells[at] ?? ''));
      // A line without a value still says who the child is, for the lines below it.
      if (filled.length === 0)
        return [{ row, cells: [...own.map((cell, k) => (left[k] === measured ? '' : cell)), '', ''] }];
      return filled.map(({ at, side }) => ({ row, cells: [...own, side, cells[at]] }));
    }),
  };
}

/** The column for sizes that have no side, 'Single' beside 'L' and 'R': filled only where neither side is. */
function withoutSide(table: SheetTable, sided: readonly number[]): { at: number; side: '' }[] {
  const isFilled = (cells: readonly string[], at: number) => !saysNothing(cells[at] ?? '');
  const alone = (at: number) =>
    table.rows.every(({ cells }) => !isFilled(cells, at) || !sided.some((side) => isFilled(cells, side)));
  return table.headings.flatMap((_, at) =>
    !sided.includes(at) && alone(at) && holds(table, at, (cell) => cellSize(cell) !== null)
      ? [{ at, side: '' as const }]
      : [],
  );
}

const namesSize = (cell: string): boolean =>
  headingCandidates(cell).some(({ meaning, strength }) => meaning.kind === 'reading' && strength >= 0.75);

/** Of sizes; and of words for them, of which a clinic has some of its own. */
const NEARLY_ALL = 0.8;
const MOST = 0.6;

/** Whether so many of the filled cells of a column are. */
function holds({ rows }: SheetTable, at: number, is: (cell: string) => boolean, share = NEARLY_ALL): boolean {
  const filled = rows
    .map(({ cells }) => (cells[at] ?? '').trim())
    .filter((cell) => !saysNothing(cell) && (/\d/.test(cell) || is(cell) || share === MOST));
  return filled.length > 1 && filled.filter(is).length >= filled.length * share;
}
