import { foldText, foldWords } from '../headings/fold-words.js';
import { monthNumbers } from '../headings/written-date.js';
import { leftWords, rightWords, sideIn, sideWordIn } from './cell-words.js';
import type { Column } from './column.js';
import type { SheetTable } from './grid.js';

/** Columns of which one question asks: 'Sep-23 R', 'Sep-23 L' and 'Mar-24 R'. */
export interface AlikeColumns {
  readonly question: string;
  /** As a question says them: '"Sep-23 R", "Sep-23 L"'. */
  readonly names: string;
  /** They are of both sides: an answer says none. */
  readonly sided: boolean;
}

/** As many as somebody reads. */
const SHOWN = 4;

/** A heading without its numbers and months, and without its side. */
const pattern = (heading: string): string => foldText(heading).replace(/\d+/g, '#');
const withoutSide = (heading: string): string =>
  foldWords(heading)
    .map((word) => {
      if (/\d/.test(word) || monthNumbers.has(word)) return '#';
      return leftWords.has(word) || rightWords.has(word) ? '&' : word;
    })
    .join(' ');

/**
 * Columns whose headings differ by a number, a date or a side only and that are of different days or sides: one question asks
 * for them all. Two of one day and side, 'Diag 1' and 'Diag 2', are different sizes.
 */
export function alikeColumns(
  { heading }: Column,
  table: SheetTable,
  day: (index: number) => string,
): AlikeColumns | null {
  for (const of of [withoutSide, pattern]) {
    const own = of(heading);
    if (!/[#&]/.test(own)) continue;
    const alike = table.headings.flatMap((other, index) => (of(other) === own ? [index] : []));
    const sides = alike.map((index) => sideIn(sideWordIn(table.headings[index]) ?? ''));
    const places = new Set(alike.map((index, n) => `${day(index)} ${sides[n]}`));
    if (alike.length < 2 || places.size < alike.length) continue;
    const names = alike.slice(0, SHOWN).map((index) => `"${table.headings[index]}"`);
    const more = alike.length > SHOWN ? ` and ${alike.length - SHOWN} more` : '';
    return {
      question: `column:${own}`,
      names: names.join(', ') + more,
      sided: new Set(sides).size > 1,
    };
  }
  return null;
}
