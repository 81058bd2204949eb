import { fieldHeaded, headingStrength, likeliestMeaning } from '../headings/heading-meaning.js';
import { isField } from '../headings/meaning.js';
import { headingDay, saysAge } from '../headings/written-age.js';
import { isDay } from './cell-date.js';
import { sideIn, sideWordIn } from './cell-words.js';
import type { Grid, GridRow } from './grid.js';
import { isKeyValueLine } from './shapes/key-value-line.js';

/** A number or a date: what stands in rows and not in headings. */
export const isData = (cell: string): boolean =>
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

export interface Head {
  readonly from: number;
  readonly to: number;
  readonly headings: readonly string[];
}

interface ScoredHead {
  readonly head: Head;
  readonly score: number;
}

export function headingAt(grid: Grid, from: number, lookAt: number): Head | null {
  let best: ScoredHead | null = null;
  for (let at = from; at < Math.min(grid.rows.length, from + lookAt); at++) {
    if (best && best.score >= 3 && (at - best.head.to > 3 || isLineOf(grid.rows[at], best.head, at))) break;
    const single = lineScore(grid.rows[at].cells);
    if (single.data > Math.max(1, single.filled * 0.4) || single.filled < 1) continue;
    if (isKeyValueLine(grid.rows[at].cells)) continue;
    best = betterEndingAt(grid, from, at, single.data, best);
  }
  return best && best.score >= 1.3 ? withLineBelow(grid, best.head) : null;
}

/**
 * 'dx' | 'sx' under 'Altezza', 'Date' | 'L' | 'R' under 'Visit 1', '4' | '5' under 'Foot length at age': a line that says more of
 * headings that several columns share, and of nobody.
 */
function withLineBelow(grid: Grid, head: Head): Head {
  const { headings } = head;
  const below = grid.rows[head.to + 1]?.cells ?? [];
  const own = (at: number) => headings[at] ?? '';
  const over = (at: number) => headings.slice(0, at + 1).findLast((heading) => heading !== '') ?? '';
  const more = [...below.keys()].filter((at) => below[at] !== '' && below[at] !== own(at));
  const shared = more.filter((at) => own(at) === '' || own(at) === own(at - 1) || own(at) === own(at + 1));
  if (shared.length < 2 || !more.every((at) => headsUnder(over(at), below[at]))) return head;
  const to = head.to + 1;
  return { from: head.from, to, headings: combined(grid.rows.slice(head.from, to + 1), grid) };
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

/** Whether a cell under a heading heads more: a side, a day, a measure, an age in figures where ages are spoken of. */
function headsUnder(over: string, cell: string): boolean {
  if (sideIn(cell) !== null || (/^\d{1,2}$/.test(cell) && saysAge(over))) return true;
  const meaning = likeliestMeaning(cell);
  const heads = meaning?.kind === 'reading' || isField(meaning, 'visit.date');
  return heads && !isData(cell) && headingStrength(cell) >= 0.75;
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

export function lineScore(cells: readonly string[]): { filled: number; data: number; known: number } {
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
      // A day or an age is of all columns up to the next, the last one of sizes alone.
      const dated = headingDay(group) !== null;
      const last = dated && !line.cells.some((cell, at) => at > column && cell !== '');
      if (last && below !== '' && sideIn(below) === null && likeliestMeaning(below)?.kind !== 'reading')
        group = '';
      return below !== '' &&
        (dated || headingStrength(below) < 0.9 || (sideWordIn(group) !== null && lacksSide(below)))
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

/** 'G' under 'Talon-genou', 'A' under 'Diagonals': a side or a letter is nothing without its group. */
const saysNoMore = (group: string, lower: string): boolean =>
  sideIn(lower) !== null || (/^\p{L}$/u.test(lower) && likeliestMeaning(group)?.kind === 'reading');

const WHOSE = /^child\.(?:name|first_name|last_name|birth_date|sex)$/;

/** The words over a column as one heading; only the lowest, with its side, where the others make it less clear. */
function asOne(words: readonly string[], lower: string): string {
  const all = [...new Set(words)].join(' ').replace(/\s+/g, ' ').trim();
  if (lower === '' || words.length < 2) return all;
  if (saysNoMore(words.slice(0, -1).join(' '), lower)) return all;
  // 'CTEV list - boots and bars' over 'Name' is the sheet's title.
  const [top] = words;
  if (top.split(' ').length > 2 && WHOSE.test(fieldHeaded(lower))) return lower;
  const withDate = words.some((word) => isDay(word));
  // 'Autumn 2024 (checked 18/9/24)' over 'L foot': the day is what is needed of it.
  const date =
    headingStrength(all) < headingStrength(lower) - 0.05 ? headingDay(words.slice(0, -1).join(' ')) : null;
  if (date !== null && !withDate) return `${lower} ${date}`;
  if (withDate || ofOtherDay(all) || headingStrength(all) >= headingStrength(lower) - 0.05) return all;
  const side = lacksSide(lower) ? sideWordIn(words.slice(0, -1).join(' ')) : null;
  return side === null ? lower : `${side} ${lower}`;
}
