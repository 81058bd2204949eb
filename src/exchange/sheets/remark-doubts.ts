import type { MeasureId } from '../../records/measure.js';
import { foldText } from '../headings/fold-words.js';
import { headingCandidates } from '../headings/heading-meaning.js';
import { spokenWords } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { type Column, cellOf } from './column.js';
import type { GridRow } from './grid.js';

/** Ways to measure that are not the usual one, as a remark says them: lying, by the arm span, over clothes, by a student. */
const OTHERWISE = [...spokenWords('otherwise-measured')];
/** 'Which should read 187': what was typed is not what is meant. */
const CORRECTED = [...spokenWords('otherwise-corrected')];
/** A number as near as that to a size, and no nearer, is the one it should be. */
const [LIKE, NEAR] = [0.01, 0.15];

/** Whether a remark of the row says that a size of about this value is another. */
export const isCorrected = (columns: readonly Column[], row: GridRow, value: number): boolean =>
  columns.some(
    (column) =>
      column.meaning?.kind === 'remark' &&
      correctedTo(cellOf(row, column)).some((to) => {
        const off = Math.abs(Math.log(value / to));
        return off > LIKE && off < NEAR;
      }),
  );
const correctedTo = remembered((remark): readonly number[] => {
  const text = ` ${foldText(remark)} `;
  return CORRECTED.some((phrase) => text.includes(` ${phrase} `))
    ? (remark.match(/\d+(?:[.,]\d+)?/g) ?? []).map((number) => Number(number.replace(',', '.')))
    : [];
});

/** Their first words: of a long list's remarks hardly any has one. */
const FIRST = new Set(OTHERWISE.map((phrase) => phrase.split(' ')[0]));
/** A measure is named in so many words at most: 'sitting height', 'tour de hanches'. */
const WORDS = 3;
const SURE = 0.9;
const NONE: ReadonlySet<MeasureId> = new Set();

/** Sizes that the remarks of a row say were measured in another way than usual: 'height from arm span', 'talla tumbado'. */
export function doubtedIn(columns: readonly Column[], row: GridRow): ReadonlySet<MeasureId> {
  const found = columns.flatMap((column) =>
    column.meaning?.kind === 'remark' ? [...measuredOtherwise(cellOf(row, column))] : [],
  );
  return found.length === 0 ? NONE : new Set(found);
}

const measuredOtherwise = remembered((remark): readonly MeasureId[] => {
  const folded = foldText(remark);
  if (!folded.split(' ').some((word) => FIRST.has(word))) return [];
  const text = ` ${folded} `;
  if (!OTHERWISE.some((phrase) => text.includes(` ${phrase} `))) return [];
  const words = remark.split(/[^\p{L}]+/u).filter((word) => word !== '');
  return words.flatMap((_, at) =>
    Array.from({ length: WORDS }, (_, n) => words.slice(at, at + n + 1).join(' ')).flatMap((part) => {
      const [best] = headingCandidates(part);
      return best?.meaning.kind === 'reading' && best.strength >= SURE && best.unknownWords === 0
        ? [best.meaning.measure]
        : [];
    }),
  );
});
