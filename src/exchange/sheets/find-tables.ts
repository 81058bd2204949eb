import { foldText, foldWords } from '../headings/fold-words.js';
import { fieldHeaded, headingStrength, likeliestMeaning } from '../headings/heading-meaning.js';
import { headingDate } from '../headings/written-date.js';
import { isDay } from './cell-date.js';
import { sideIn, sideWordIn, totalWords } from './cell-words.js';
import type { Grid, GridRow, SheetTable } from './grid.js';
import { devicesBelow, namesChild, withChildAbove } from './shapes/child-above.js';
import { childBlocks } from './shapes/child-blocks.js';
import { datesAcross } from './shapes/dates-across.js';
import { withDayLines } from './shapes/day-lines.js';
import { withDeviceLines } from './shapes/device-lines.js';
import { withoutDittos } from './shapes/ditto.js';
import { withHeadWords } from './shapes/head-words.js';
import { isKeyValueLine } from './shapes/key-value-line.js';
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

/** A number or a date: what stands in rows and not in headings. */
const isData = (cell: string): boolean =>
  cell.length < 60 &&
  (/^[~<>≈±]?[+-]?\d+([.,:;/ -]\d+)*\s*([\p{L}"″%?*]{0,4})$/u.test(cell.trim()) || isDay(cell));
/** 'Foot width' under RIGHT. */
const lacksSide = (heading: string): boolean => {
  const meaning = likeliestMeaning(heading);
  return meaning?.kind === 'reading' && meaning.side === 'row';
};

/** 'At cast' or 'Previous' over 'Foot L': the word above decides of which day the sizes are. */
function ofOtherDay(heading: string): boolean {
  const meaning = likeliestMeaning(heading);
  return meaning?.kind === 'keep' || (meaning?.kind === 'reading' && meaning.at !== null);
}

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
    tables.push(withStageRows(withHeadWords(withSidesAsRows(withPooledApart(said)))));
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

interface Head {
  readonly from: number;
  readonly to: number;
  readonly headings: readonly string[];
}

interface ScoredHead {
  readonly head: Head;
  readonly score: number;
}

function headingAt(grid: Grid, from: number, lookAt: number): Head | null {
  let best: ScoredHead | null = null;
  for (let at = from; at < Math.min(grid.rows.length, from + lookAt); at++) {
    if (best && best.score >= 3 && (at - best.head.to > 3 || isLineOf(grid.rows[at], best.head, at))) break;
    const single = lineScore(grid.rows[at].cells);
    if (single.data > Math.max(1, single.filled * 0.4) || single.filled < 1) continue;
    if (isKeyValueLine(grid.rows[at].cells)) continue;
    best = betterEndingAt(grid, from, at, single.data, best);
  }
  return best && best.score >= 1.3 ? best.head : null;
}

/** The best of `before` and the headings of one to three lines that end at a line with `data` figures in it. */
function betterEndingAt(
  grid: Grid,
  from: number,
  at: number,
  data: number,
  before: ScoredHead | null,
): ScoredHead | null {
  let best = before;
  for (const up of [0, 1, 2]) {
    if (at - up < from) continue;
    const lines = grid.rows.slice(at - up, at + 1);
    if (!headTogether(lines, grid)) continue;
    const headings = combined(lines, grid);
    // One heading over several columns says as much as over one.
    const score = [...new Set(headings)].reduce((sum, h) => sum + headingStrength(h), 0) - data - up * 0.45;
    if (best === null || score > best.score + 0.01)
      best = { head: { from: at - up, to: at, headings }, score };
  }
  return best;
}

/** Whether the lines above the last can be part of its heading. */
function headTogether(lines: readonly GridRow[], grid: Grid): boolean {
  const upper = lines.slice(0, -1);
  const lowest = lines[lines.length - 1];
  if (upper.some(({ cells }) => isKeyValueLine(cells) || isDatedTitle(cells, lowest.cells))) return false;
  // One word over a line is a title, unless it spans several columns.
  return !upper.some((line) => line.cells.filter((c) => c !== '').length < 2 && !spansMany(grid, line));
}

/** Figures under most of a heading: its first line, and what heads anything below is another table. */
const isLineOf = ({ cells }: GridRow, { to, headings }: Head, at: number): boolean =>
  at === to + 1 &&
  cells.some((cell) => cell !== '' && isData(cell)) &&
  !isKeyValueLine(cells) &&
  cells.filter((cell, column) => cell !== '' && headings[column]).length * 2 >
    headings.filter((h) => h).length;

/** 'Clinic 4' | '12/11/2026' over 'Time' and 'DOB': a day over what is of no day heads nothing. */
const isDatedTitle = (cells: readonly string[], below: readonly string[]): boolean =>
  cells.some((cell, at) => {
    if (cell === '' || !isDay(cell)) return false;
    return fieldHeaded(below[at] ?? '').startsWith('child.');
  });

const spansMany = (grid: Grid, line: GridRow): boolean =>
  grid.merged.some(
    (m) =>
      m.top === line.row && m.right - m.left >= 1 && m.right - m.left < Math.max(3, line.cells.length * 0.7),
  );

function lineScore(cells: readonly string[]): { filled: number; data: number; known: number } {
  const filled = cells.filter((cell) => cell !== '');
  return {
    filled: filled.length,
    data: filled.filter(isData).length,
    known: filled.reduce((sum, cell) => sum + (isData(cell) ? 0 : headingStrength(cell)), 0),
  };
}

/** Lines over each other as one heading a column; a group's word reaches over the empty cells to its right. */
function combined(lines: readonly GridRow[], grid: Grid): string[] {
  const width = Math.max(
    ...lines.map(({ cells }) => cells.length),
    grid.rows.slice(0, 60).reduce((w, r) => Math.max(w, r.cells.length), 0),
  );
  const lowest = lines[lines.length - 1];
  const filled = lines.map((line, level) => {
    const merges = grid.merged.filter((m) => m.top === line.row && m.right > m.left);
    let group = '';
    let sided = false;
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: a group's word carried on from cell to cell
    return Array.from({ length: width }, (_, column) => {
      const own = line.cells[column] ?? '';
      const merge = merges.find((m) => column > m.left && column <= m.right);
      if (merge) return line.cells[merge.left] ?? '';
      if (own !== '') [group, sided] = [own, false];
      if (own !== '' || level === lines.length - 1) return own;
      // Without merged cells a group ends where the line below can stand alone.
      if (merges.length > 0) return '';
      const below = lowest.cells[column] ?? '';
      // Over 'L' and 'R' it ends with them; 'visit 2' goes on.
      if (sided && below !== '' && sideIn(below) === null && !/\d/.test(group)) group = '';
      sided ||= sideIn(below) !== null;
      return below !== '' &&
        (headingStrength(below) < 0.9 || (sideWordIn(group) !== null && lacksSide(below)))
        ? group
        : '';
    });
  });
  return Array.from({ length: width }, (_, column) =>
    asOne(
      filled.map((line) => line[column]).filter((word) => word !== ''),
      lowest.cells[column] ?? '',
    ),
  );
}

const WHOSE = /^child\.(?:name|first_name|last_name|birth_date|sex)$/;

/** The words over a column as one heading; only the lowest, with its side, where the others make it less clear. */
function asOne(words: readonly string[], lower: string): string {
  const all = [...new Set(words)].join(' ').replace(/\s+/g, ' ').trim();
  if (lower === '' || words.length < 2) return all;
  // 'CTEV list - boots and bars' over 'Name' is the sheet's title.
  const [top] = words;
  if (top.split(' ').length > 2 && WHOSE.test(fieldHeaded(lower))) return lower;
  const withDate = words.some((word) => isDay(word));
  // 'Autumn 2024 (checked 18/9/24)' over 'L foot': the day is what is needed of it.
  const date =
    headingStrength(all) < headingStrength(lower) - 0.05 ? headingDate(words.slice(0, -1).join(' ')) : null;
  if (date !== null && !withDate) return `${lower} ${date}`;
  if (withDate || ofOtherDay(all) || headingStrength(all) >= headingStrength(lower) - 0.05) return all;
  const side = lacksSide(lower) ? sideWordIn(words.slice(0, -1).join(' ')) : null;
  return side === null ? lower : `${side} ${lower}`;
}

/** Where the next table of the same sheet starts: a line of headings below, other than this one repeated. */
function nextHeading(rows: readonly GridRow[], headings: readonly string[]): number {
  const own = new Set(headings.map(foldText));
  return rows.findIndex(({ cells }) => {
    const filled = cells.filter((cell) => cell !== '');
    // Nearly every line holds a figure: nothing else is looked at in it.
    if (filled.length < 3 || filled.some(isData) || filled.every((cell) => own.has(foldText(cell))))
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
