import { foldText } from '../../headings/fold-words.js';
import type { Grid, GridRow } from '../grid.js';

/** A list of codes is short; a heading stands in the first lines. */
const LONGEST = 200;
const LOOK_AT = 12;

/** 'SEX_CD' lists the codes of 'SEX'. */
const nameOf = (heading: string): string => foldText(heading).replace(/ (?:cd|codes?)$/, '');

/** Of a column, by its folded heading, what each code stands for. */
type Codes = ReadonlyMap<string, ReadonlyMap<string, string>>;

/**
 * Sheets of one file with their codes in words, where a sheet beside them lists them: 'SIDE_CD' | '1' | 'right', the column's name
 * once for all its codes. A list of codes is no list of children: it is left out.
 */
export function withCodesInWords(grids: readonly Grid[]): readonly Grid[] {
  if (grids.length < 2) return grids;
  const headings = new Set(
    grids.flatMap(({ rows }) => rows.slice(0, LOOK_AT).flatMap(({ cells }) => cells.map(nameOf))),
  );
  const lists = grids.flatMap((grid) => {
    const codes = codesIn(grid.rows, headings);
    return codes.size > 0 ? [{ grid, codes }] : [];
  });
  if (lists.length === 0) return grids;
  const all: Codes = new Map(lists.flatMap(({ codes }) => [...codes]));
  return grids.filter((grid) => !lists.some((list) => list.grid === grid)).map((grid) => inWords(grid, all));
}

/** The columns a sheet lists two codes or more of; none unless nearly every line is such a code. */
function codesIn(rows: readonly GridRow[], headings: ReadonlySet<string>): Codes {
  const found = new Map<string, Map<string, string>>();
  if (rows.length > LONGEST) return found;
  let name = '';
  let lines = 0;
  for (const { cells } of rows) {
    const [first = '', code = '', words = '', ...more] = cells;
    if (code === '' || !/\p{L}/u.test(words) || code.length > 8 || more.some((cell) => cell !== '')) continue;
    if (first !== '') name = nameOf(first);
    if (!headings.has(name)) continue;
    found.set(name, (found.get(name) ?? new Map<string, string>()).set(code, words));
    lines++;
  }
  const several = [...found].filter(([, codes]) => codes.size > 1);
  return new Map(lines >= rows.length * 0.7 ? several : []);
}

function inWords(grid: Grid, codes: Codes): Grid {
  const at = grid.rows.findIndex(
    ({ cells }, n) => n < LOOK_AT && cells.some((cell) => codes.has(nameOf(cell))),
  );
  if (at === -1) return grid;
  const columns = grid.rows[at].cells.map((heading) => codes.get(nameOf(heading)));
  const rows = grid.rows.map((line, n) =>
    n <= at
      ? line
      : { ...line, cells: line.cells.map((cell, column) => columns[column]?.get(cell.trim()) ?? cell) },
  );
  return { ...grid, rows };
}
