import { foldText } from '../../headings/fold-words.js';
import { fieldHeaded } from '../../headings/heading-meaning.js';
import type { Grid } from '../grid.js';

const LOOK_AT = 12;

/**
 * Tables that stand beside each other, each as a grid of its own: the right one starts where the column that says which
 * child comes again, after an empty column or with other children in its rows. Read as one, a row would give the sizes
 * of one child to another.
 */
export function sideBySide(grid: Grid): Grid[] {
  for (const { cells } of grid.rows.slice(0, LOOK_AT)) {
    const whose = cells.flatMap((cell, at) => (saysWho(cell) ? [at] : []));
    const start = whose.find((at) => isSecond(grid, cells, whose, at));
    if (start === undefined) continue;
    const left = part(grid, 0, start);
    return [left, ...sideBySide(part(grid, start, Number.POSITIVE_INFINITY))];
  }
  return [grid];
}

const saysWho = (heading: string): boolean => /^child\.(id|name|last_name)$/.test(fieldHeaded(heading, 0.6));

function isSecond(grid: Grid, headings: readonly string[], whose: readonly number[], at: number): boolean {
  const before = whose.filter((w) => w < at);
  if (before.length === 0) return false;
  const below = grid.rows.filter(({ cells }) => cells !== headings);
  if (at > 0 && (headings[at - 1] ?? '') === '' && below.every(({ cells }) => (cells[at - 1] ?? '') === ''))
    return true;
  const same = before.find((w) => foldText(headings[w]) === foldText(headings[at]));
  const filled = below.filter(({ cells }) => (cells[at] ?? '') !== '');
  return same !== undefined && filled.some(({ cells }) => (cells[same] ?? '') !== cells[at]);
}

const part = (grid: Grid, from: number, to: number): Grid => ({
  ...grid,
  rows: grid.rows
    .map(({ row, cells }) => ({ row, cells: cells.slice(from, to) }))
    .filter(({ cells }) => cells.some((cell) => cell !== '')),
  merged: grid.merged
    .filter((m) => m.left >= from && m.right < to)
    .map((m) => ({ ...m, left: m.left - from, right: m.right - from })),
});
