import { headingCandidates } from '../../headings/heading-meaning.js';
import { headingAge } from '../../headings/written-age.js';
import { isDay } from '../cell-date.js';
import { saysNothing, sideIn } from '../cell-words.js';
import type { Grid, GridRow } from '../grid.js';
import { fileTitle, measureInTitle } from '../title-measure.js';
import { saidBesideSizes, sizeOf } from './beside-sizes.js';

const LOOK_AT = 40;
const isAge = (cell: string): boolean => /^\d/.test(cell) && headingAge(cell) === cell.trim();
const isDate = (cell: string): boolean =>
  cell !== '' && cell.length <= 24 && !/^\d+$/.test(cell) && (isDay(cell) || isAge(cell));

/**
 * A grid with the days of measuring across as one with a row a reading: the columns left of the first date, then
 * Date, Measure and Value. What was measured stands in a column at the left, else in a line above, else the grid is
 * left as it is.
 */
export function datesAcross(grid: Grid): Grid {
  const at = grid.rows.slice(0, LOOK_AT).findIndex((line, index) => isDateLine(grid, line, index));
  if (at === -1 || headsGroups(grid.rows[at - 1])) return grid;
  const line = grid.rows[at];
  const first = line.cells.findIndex(isDate);
  const sub = subHeadings(grid.rows[at + 1], first, line.cells.findLastIndex(isDate));
  // 'alfa L' beside 'dij L': headings of which not all are sizes stay headings.
  if (sub === null && headsOnly(grid.rows[at + 1], first)) return grid;
  const below = grid.rows.slice(at + (sub === null ? 1 : 2));
  const last = lastDate(line.cells, sub);
  // What stands right of the last date, a column of remarks, belongs to the child as what stands left of the first.
  const left = [
    ...Array.from({ length: first }, (_, column) => column),
    ...Array.from(
      { length: Math.max(line.cells.length, grid.rows[at + 1]?.cells.length ?? 0) },
      (_, c) => c,
    ).filter(
      (column) => column > last && [line.cells[column], sub?.[column]].some((cell) => (cell ?? '') !== ''),
    ),
  ];
  const measured = measureColumn(below, left);
  const above = grid.rows.slice(0, at);
  const title = [
    ...above.flatMap(({ cells }) => cells),
    ...line.cells.slice(0, first),
    grid.sheet ?? '',
    fileTitle(grid.file),
  ].find((cell) => measureInTitle(cell) !== null);
  const what = title === undefined ? '' : `${measureInTitle(title) ?? ''} ${orderIn(title)}`.trim();
  const measureAt = (column: number): string => {
    const own = sub?.[column] ?? '';
    return sizeOf(own) ? own : `${what} ${own}`.trim();
  };
  const values = datesOf(line.cells, first, sub);
  if (measured === undefined && !values.every(({ column }) => sizeOf(measureAt(column)))) return grid;
  const headings = left.map((column) =>
    column === measured ? 'Measure' : headingOf(line.cells[column] || (sub?.[column] ?? '')),
  );
  const measures = measured === undefined;
  const rows = below.flatMap(({ row, cells }): GridRow[] => {
    const own = left.map((column) =>
      ownCell(cells, column, column > last && column === line.cells.length - 1),
    );
    if (measured !== undefined) {
      if (own[measured] === '') return [];
      const beside = saidBesideSizes(
        own,
        measured,
        values.map(({ column }) => cells[column] ?? ''),
      );
      if (beside !== null)
        return [{ row, cells: [...own.with(measured, ''), '', '', beside.device, beside.notes] }];
    }
    // A line without a value still says who the child is, for the lines below it.
    const filled = values.filter(({ column }) => (cells[column] ?? '') !== '');
    if (filled.length === 0) return own.some((cell) => cell !== '') && measures ? [{ row, cells: own }] : [];
    return filled.map(({ column, date }) => ({
      row,
      cells: [...own, date, ...(measures ? [measureAt(column)] : []), cells[column]],
    }));
  });
  const more = !measures && rows.some(({ cells }) => cells.length > left.length + 2);
  // Whether they are the children's ages is asked with the column.
  const day = isAge(line.cells[first]) ? 'Age' : 'Date';
  const own = measures ? [day, 'Measure', 'Value'] : [day, 'Value'];
  const made = [...headings, ...own, ...(more ? ['Device', 'Notes'] : [])];
  const titles = above.filter(({ cells }) => !measures || !cells.includes(title ?? '\0'));
  return { ...grid, rows: [...titles, { row: line.row, cells: made }, ...rows], merged: [] };
}

/** 'Foot length' and 'Knee height' over the days, each over its own: lines of headings that belong together. */
const headsGroups = (above: GridRow | undefined): boolean =>
  new Set((above?.cells ?? []).filter((cell) => sizeOf(cell))).size > 1;

/** 'L/R' of 'Foot length by age, L/R in mm': the order of two sizes in a cell. */
const orderIn = (title: string): string =>
  [...title.matchAll(/(\p{L}+)\s?\/\s?(\p{L}+)/gu)].find(
    ([, one, other]) => [sideIn(one), sideIn(other)].sort().join() === 'left,right',
  )?.[0] ?? '';

/** A cell beside the dates; of a last remark all of it: a separator typed inside it is no cell of its own. */
const ownCell = (cells: readonly string[], column: number, isLast: boolean): string =>
  isLast
    ? cells
        .slice(column)
        .filter((cell) => cell !== '')
        .join(', ')
    : (cells[column] ?? '');

/** The column at the left that says what was measured. */
function measureColumn(below: readonly GridRow[], left: readonly number[]): number | undefined {
  // What stands below an empty line is another part of the sheet.
  const gap = below.findIndex(({ row }, n) => n > 0 && row > below[n - 1].row + 1);
  const block = gap === -1 ? below : below.slice(0, gap);
  return left.find((column) => {
    const words = block.map(({ cells }) => cells[column] ?? '').filter((cell) => cell !== '');
    return words.length > 0 && words.filter((word) => sizeOf(word)).length >= words.length * 0.6;
  });
}

/** Left and right, or measures, in the line under the dates; null where that line holds values. */
function subHeadings(line: GridRow | undefined, first: number, lastDated: number): readonly string[] | null {
  if (line === undefined) return null;
  const last = lastSub(line.cells);
  const words = line.cells.slice(first, last + 1).filter((cell) => cell !== '');
  // Words right of the last side are columns of their own: 'Notes'. Figures there mean that this is a line of values.
  const beyond = line.cells.slice(last + 1);
  return last >= lastDated && words.every(isSub) && !beyond.some((cell) => /\d/.test(cell))
    ? line.cells
    : null;
}

const headsOnly = (line: GridRow | undefined, first: number): boolean => {
  const cells = (line?.cells ?? []).slice(first).filter((cell) => cell !== '');
  return cells.filter(isSub).length > 1 && !cells.some((cell) => /\d/.test(cell));
};
const isSub = (cell: string): boolean =>
  cell !== '' && !/\d/.test(cell) && (sideIn(cell) !== null || sizeOf(cell) !== undefined);
/** The last column under the dates that says a side or a measure. */
const lastSub = (cells: readonly string[]): number => cells.findLastIndex(isSub);

/** The date of each column of values; without a line below, only the dated ones. */
function datesOf(
  cells: readonly string[],
  first: number,
  sub: readonly string[] | null,
): { column: number; date: string }[] {
  const width = lastDate(cells, sub) + 1;
  let date = '';
  return Array.from({ length: width - first }, (_, n) => first + n).flatMap((column) => {
    if (isDate(cells[column] ?? '')) date = cells[column];
    const holds = sub === null ? isDate(cells[column] ?? '') : isSub(sub[column] ?? '');
    return holds ? [{ column, date }] : [];
  });
}

/** A heading over measures says nothing of a child. */
const headingOf = (heading: string): string => (sizeOf(heading) ? '' : heading);

/** The last column that belongs to a date. */
const lastDate = (cells: readonly string[], sub: readonly string[] | null): number =>
  sub === null ? cells.findLastIndex(isDate) : lastSub(sub);

const headsDates = (cell: string): boolean =>
  headingCandidates(cell).some(
    ({ meaning, strength }) =>
      meaning.kind === 'field' && /(?:_date|\.date)$/.test(meaning.field) && strength >= 0.75,
  );

/** Two dates or more, one beside the other, over columns that hold no dates. */
function isDateLine(grid: Grid, { cells }: GridRow, index: number): boolean {
  const first = cells.findIndex(isDate);
  if (first < 1) return false;
  const last = cells.findLastIndex(isDate);
  const right = cells.slice(first, last + 1).filter((cell) => cell !== '');
  if (right.length < 2 || !right.every(isDate)) return false;
  // 'Cast date' and 'Fitting date' over them: a line of a table of devices.
  const headed = (line: GridRow) =>
    cells.filter((cell, at) => isDate(cell) && headsDates(line.cells[at] ?? '')).length >= 2;
  if (grid.rows.slice(0, index).some(headed)) return false;
  const below = grid.rows
    .slice(index + 2, index + 30)
    .flatMap((row) => row.cells.slice(first, last + 1).filter((cell) => cell !== '' && !saysNothing(cell)));
  return (
    below.length > 0 && below.filter((cell) => !isDate(cell) && /\d/.test(cell)).length >= below.length * 0.7
  );
}
