import { foldText, foldWords } from '../headings/fold-words.js';
import { fieldHeaded, headingStrength } from '../headings/heading-meaning.js';
import { headingDate } from '../headings/written-date.js';
import { isDay } from './cell-date.js';
import { totalWords } from './cell-words.js';
import type { Grid, GridRow, SheetTable } from './grid.js';
import { type Head, headingAt, isData, lineScore } from './heading-lines.js';
import { withBirthApart } from './shapes/birth-beside-name.js';
import { withCastsApart } from './shapes/casts-in-a-cell.js';
import { devicesBelow, namesChild, withChildAbove } from './shapes/child-above.js';
import { childBlocks } from './shapes/child-blocks.js';
import { datesAcross } from './shapes/dates-across.js';
import { withDayLines } from './shapes/day-lines.js';
import { withDaysOfSizesApart } from './shapes/days-of-sizes.js';
import { withDeviceLines } from './shapes/device-lines.js';
import { withoutDittos } from './shapes/ditto.js';
import { withLegend } from './shapes/legend.js';
import { withoutOverflow } from './shapes/overflow.js';
import { withPooledApart } from './shapes/pooled-sizes.js';
import { sideBySide } from './shapes/side-by-side.js';
import { withSidesAsRows } from './shapes/sides-across.js';
import { withStageRows } from './shapes/stage-rows.js';
import { upright } from './shapes/transposed.js';
import { withUnitsRow } from './shapes/units-row.js';
import { withoutHeadings } from './shapes/without-headings.js';
import { withYearAbove, withYearLines } from './shapes/year-above.js';

const LOOK_AT = 40;

/** The tables of a file or sheet in any of the shapes clinics keep, each as rows under headings. */
export function findTables(grid: Grid, notices: string[]): SheetTable[] {
  const unread: Grid[] = [];
  const found = sideBySide(upright(grid))
    .flatMap((part) => childBlocks(part, isHeadingLine))
    .flatMap((part) => {
      const tables = tablesIn(datesAcross(part), notices);
      if (tables.length === 0) unread.push(part);
      return tables;
    });
  if (found.length > 0) {
    notices.push(...unread.flatMap(linesUnread));
    return found;
  }
  const bare = withoutHeadings(grid);
  return bare === null ? [] : [bare];
}

/** Lines with figures under no heading anybody knows: nothing of them is read, so somebody has to be told. */
function linesUnread({ file, rows }: Grid): string[] {
  const lines = rows.filter(({ cells }) => cells.some((cell) => cell !== '' && isData(cell)));
  if (lines.length === 0) return [];
  const from = `${file} rows ${lines[0].row} to ${lines[lines.length - 1].row}`;
  return [`${from}: ${lines.length} lines stand under no headings that doorpost knows and were not read.`];
}

/**
 * The tables of a sheet: for each the heading line, or two or three lines that make a heading together, with titles
 * above and totals below left out. Lines that are no record are told in `notices`.
 */
function tablesIn(grid: Grid, notices: string[]): SheetTable[] {
  const tables: SheetTable[] = [];
  let from = 0;
  let child: readonly GridRow[] = [];
  for (;;) {
    const head = headingAt(grid, from, from === 0 ? LOOK_AT : grid.rows.length);
    if (head === null) break;
    const above = grid.rows.slice(from, head.from);
    const titles = above.map(({ cells }) => cells.filter((c) => c !== '').join(' '));
    const rest = grid.rows.slice(head.to + 1);
    const next = nextHeading(rest, head.headings);
    const body = next === -1 ? rest : rest.slice(0, next);
    const whole = withDayLines(
      withUnitsRow(
        {
          file: grid.file,
          headingRow: grid.rows[head.to].row,
          headings: head.headings,
          titles,
          rows: body,
        },
        grid.merged,
      ),
    );
    const ofChild = above.filter(({ cells }) => namesChild(cells));
    if (ofChild.length > 0) child = above;
    const below = devicesBelow(whole.rows, child);
    const rows = withYearLines(whole).rows.filter(
      (row) => !below.includes(row) && isRecord(row, head.headings, grid.file, notices),
    );
    const lined = withDeviceLines({ ...whole, rows: filledDown(rows, grid) });
    const filled = withoutDittos(lined, notices);
    const table =
      grid.separator === undefined
        ? filled
        : withoutOverflow(
            filled,
            lineWidth(grid, head) + lined.headings.length - head.headings.length,
            grid.separator,
          );
    const sheet = grid.sheet ?? '';
    const dated = withYearAbove(table, [sheet, grid.file]);
    const said = withChildAbove(dated, [...above, ...below], sheet, child);
    notices.push(...ofChild.flatMap((line) => unsaid(line, said)));
    const named = withCastsApart(withBirthApart(withLegend(said)));
    tables.push(withStageRows(withSidesAsRows(withPooledApart(withDaysOfSizesApart(named)))));
    if (next === -1) break;
    from = head.to + 1 + next;
  }
  return tables;
}

/** Words of a line about the child that did not come into its table. */
function unsaid({ row, cells }: GridRow, { file, headings, rows }: SheetTable): string[] {
  const placed = new Set([...headings, ...(rows[0]?.cells ?? [])].flatMap(foldWords));
  const lost = cells.filter((cell) => foldWords(cell).some((word) => word.length > 2 && !placed.has(word)));
  return lost.length === 0 || rows.length === 0
    ? []
    : [`${file} row ${row}: "${lost.join(' | ').slice(0, 80)}" was not read of the child the line names.`];
}

/** How many cells the lines of a heading have, empty ones too. */
const lineWidth = (grid: Grid, head: Head): number =>
  Math.max(...grid.rows.slice(head.from, head.to + 1).map(({ cells }) => cells.length));

/** Words of the vocabulary and no data. */
const isHeadingLine = ({ cells }: GridRow): boolean => {
  // Nearly every line holds a figure: its words are not looked at.
  if (cells.some((cell) => cell !== '' && isData(cell))) return false;
  const { filled, known } = lineScore(cells);
  return filled >= 2 && known >= Math.max(1.5, filled * 0.6);
};

/** Where the next table of the same sheet starts: a line of headings below, other than this one repeated. */
function nextHeading(rows: readonly GridRow[], headings: readonly string[]): number {
  const own = new Set(headings.map(foldText));
  return rows.findIndex(({ cells }) => {
    const filled = cells.filter((cell) => cell !== '');
    // Nearly every line holds a figure: nothing else is looked at in it.
    if (filled.length < 3 || filled.some(isData) || filled.every((cell) => own.has(foldText(cell))))
      return false;
    // 'EVO' | 'cast 3/10/2023' | 'cast 3/10/2023' is a device's line.
    if (filled.some((cell) => headingDate(cell) !== null && fieldHeaded(cell).startsWith('device.')))
      return false;
    const { known } = lineScore(cells);
    return (
      known >= Math.max(2.4, filled.length * 0.75) &&
      filled.filter((c) => headingStrength(c) >= 0.9).length >= 3 &&
      !filled.some((c) => c.length < 3 && !/^(id|ht|wt|hc|nr|no|sh)$/i.test(c))
    );
  });
}

/** Totals, footnotes and the heading printed again are no records; a total or a note is told. */
function isRecord(row: GridRow, headings: readonly string[], file: string, notices: string[]): boolean {
  const filled = row.cells.filter((cell) => cell.trim() !== '');
  if (filled.length === 0) return false;
  const own = new Set(headings.map(foldText));
  if (
    filled.length > 1 &&
    filled.every(
      (cell) => own.has(foldText(cell)) || headings.some((h) => foldText(h).endsWith(foldText(cell))),
    )
  )
    return false;
  const first = foldText(filled[0]).replace(/^\d+ | \d+$/g, '');
  // 'N = 12' counts; 'N1' is somebody's number, and a line with a day in it is about somebody.
  const counts = /^\s*n\s*[=:]\s*\d+\s*$/i.test(filled[0]);
  const named =
    (totalWords.has(first) && !/^\p{L}\d+$/u.test(filled[0].trim())) ||
    /^(?:total|gesamt|summe|totaal|totale|n no|(?:mean|average|median|mittelwert|durchschnitt|moyenne|promedio|gemiddelde)\b)/.test(
      foldText(filled[0]),
    );
  const total = counts || (named && !filled.some((cell) => isDay(cell)));
  const device = fieldHeaded(headings[row.cells.indexOf(filled[0])] ?? '') === 'device.family';
  const lonely = filled.length === 1 && !device && headings.filter((h) => h !== '').length >= 4;
  if (!total && !lonely) return true;
  notices.push(
    `${file} row ${row.row}: "${filled.slice(0, 3).join(' | ').slice(0, 80)}" is no record and was left out.`,
  );
  return false;
}

/** Cells merged downwards hold for every row they reach over. */
function filledDown(rows: readonly GridRow[], grid: Grid): GridRow[] {
  const down = grid.merged.filter((m) => m.bottom > m.top);
  if (down.length === 0) return [...rows];
  const value = new Map(grid.rows.map((r) => [r.row, r.cells]));
  return rows.map((row) => {
    const cells = [...row.cells];
    for (const m of down) {
      if (row.row <= m.top || row.row > m.bottom) continue;
      for (let c = m.left; c <= m.right; c++) if (!cells[c]) cells[c] = value.get(m.top)?.[m.left] ?? '';
    }
    return { row: row.row, cells: Array.from(cells, (cell) => cell ?? '') };
  });
}
