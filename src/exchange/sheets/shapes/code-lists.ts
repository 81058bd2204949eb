import { foldText } from '../../headings/fold-words.js';
import { spokenWords } from '../../headings/read-words.js';
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
  const all: Codes = new Map(lists.flatMap(({ codes }) => [...codes]));
  const inTheirColumns = grids
    .filter((grid) => !lists.some((list) => list.grid === grid))
    .map((grid) => (all.size === 0 ? grid : inWords(grid, all)));
  const keys = new Map(inTheirColumns.filter(isKey).flatMap(({ rows }) => rows.map(codeAndWords)));
  const inWordsByKey = inTheirColumns.map((grid) => withKey(grid, keys));
  const used = inWordsByKey.some((grid, n) => grid !== inTheirColumns[n]);
  return used ? inWordsByKey.filter((grid) => !isKey(grid)) : inTheirColumns;
}

/** 'Codes', 'Legende': its lines are codes and what they stand for, of whichever column. */
const KEY = spokenWords('code-list');
const isKey = ({ sheet = '', rows }: Grid): boolean =>
  rows.length <= LONGEST &&
  [sheet, rows[0]?.cells[0] ?? ''].some((name) => KEY.has(foldText(name))) &&
  rows.filter(({ cells }) => cells.filter((cell) => cell !== '').length === 2).length >= rows.length * 0.7;
const codeAndWords = ({ cells: [code = '', words = ''] }: GridRow): readonly [string, string] => [
  code.trim(),
  words,
];

/** A column of which most cells are such codes, two or more of them, in words. */
function withKey(grid: Grid, keys: ReadonlyMap<string, string>): Grid {
  if (isKey(grid)) return grid;
  const width = Math.max(0, ...grid.rows.map(({ cells }) => cells.length));
  const coded = Array.from({ length: width }, (_, column) => {
    const said = new Set(grid.rows.map(({ cells }) => cells[column]?.trim() ?? ''));
    said.delete('');
    const known = [...said].filter((cell) => keys.has(cell)).length;
    return known > 1 && known >= said.size * MOST;
  });
  if (!coded.includes(true)) return grid;
  const inWords = (cell: string, column: number) => (coded[column] && keys.get(cell.trim())) || cell;
  return { ...grid, rows: grid.rows.map((line) => ({ ...line, cells: line.cells.map(inWords) })) };
}
/** The heading and a slip of the pen are no codes. */
const MOST = 0.6;

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
