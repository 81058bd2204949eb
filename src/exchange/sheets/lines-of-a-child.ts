import { fieldHeaded } from '../headings/heading-meaning.js';
import type { SheetTable } from './grid.js';

/** A long list says the same in its first lines. */
export const LOOK_AT = 400;

/** Names with several birth dates each are not the children's: two children of one name are rare. */
export const standsForSeveral = (table: SheetTable, index: number): boolean =>
  severalOf(table, index, birthColumn(table));

/** 1, 2, 3 down the sheet, or another number in every line of a child: the line's own, and next month another's. */
export function numbersLines(table: SheetTable, index: number): boolean {
  const numbers = table.rows.slice(0, LOOK_AT).flatMap(({ cells }) => (cells[index] ? [cells[index]] : []));
  const counted = numbers.every((n, at) => /^\d{1,3}\.?$/.test(n) && (at === 0 || +n >= +numbers[at - 1]));
  return (
    (counted && Number(numbers.at(-1)) <= numbers.length * 1.5) || severalOf(table, birthColumn(table), index)
  );
}

export const birthColumn = (table: SheetTable): number =>
  table.headings.findIndex((heading) => fieldHeaded(heading) === 'child.birth_date');

/** Do cells of one column often stand beside different ones of another? */
export function severalOf(table: SheetTable, of: number, other: number): boolean {
  if (of < 0 || other < 0) return false;
  const beside = new Map<string, Set<string>>();
  for (const { cells } of table.rows.slice(0, LOOK_AT)) {
    if (!cells[of] || !cells[other]) continue;
    beside.set(cells[of], (beside.get(cells[of]) ?? new Set()).add(cells[other]));
  }
  return [...beside.values()].filter((cells) => cells.size > 1).length > beside.size * 0.3;
}
