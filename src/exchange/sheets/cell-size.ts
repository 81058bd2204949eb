import { type Unit, unitNamed } from '../../records/units.js';
import { readNumber } from '../csv/read-number.js';
import { spokenLists } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { leftWords, rightWords, saysDoubt, saysNothing } from './cell-words.js';

/** A size as a cell says it. */
export interface CellSize {
  readonly value: number;
  /** The unit where the cell itself says one. */
  readonly unit: Unit | null;
  /** The writer was not sure: '~163', '66?', '168 in shoes', '168/169'. */
  readonly doubt: boolean;
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
};
const UNIT_WORDS = new Map(
  spokenLists('unit').flatMap(([unit, list]) => list.split('|').map((word) => [word, unit] as const)),
);
const NUMBER = String.raw`[+-]?\d+(?:[ '’]\d{3})*(?:[.,]\d+)?|[.,]\d+`;

/**
 * The size in a cell with its doubt, or null where there is none. cellSize("3' 11 1/2\"") = 1206.5 mm; cellSize('1m23') =
 * 1.23 m; cellSize('10 1/4') = 10.25; cellSize('168/169') = 168.5, doubtful.
 */
export const cellSize = remembered((cell): CellSize | null => {
  if (cell.length > 80) return null;
  const text = cell
    .trim()
    .replace(/[¼½¾⅛⅜⅝⅞⅓⅔]/g, (sign) => ` ${FRACTIONS[sign]}`)
    .replace(/^'+(?=[=+\-@])/, '');
  return feetAndInches(text) ?? metresAndCentimetres(text) ?? stonesAndPounds(text) ?? plain(text);
});

function feetAndInches(text: string): CellSize | null {
  const match =
    /^(~|ca\.? ?)?(\d)\s*(?:'|′|’|ft\.?|feet|foot)\s*(?:(\d{1,2}(?:[.,]\d+)?)(?:\s+(\d)\/(\d))?\s*(?:"|″|”|''|ins?\.?|inch(?:es)?)?)?\s*([?*])?$/i.exec(
      text,
    );
  if (!match) return null;
  const inches = match[3] ? Number(match[3].replace(',', '.')) + (match[4] ? +match[4] / +match[5] : 0) : 0;
  return { value: Number(match[2]) * 12 + inches, unit: 'inch', doubt: !!(match[1] ?? match[6]) };
}

function metresAndCentimetres(text: string): CellSize | null {
  const match = /^(\d)\s*m\s*(\d{1,2})(?:[.,](\d))?\s*(?:cm)?$/i.exec(text);
  if (!match) return null;
  const value = +match[1] * 100 + Number(`${match[2].padEnd(2, '0')}.${match[3] ?? 0}`);
  return { value, unit: 'cm', doubt: false };
}

function stonesAndPounds(text: string): CellSize | null {
  const match = /^(\d{1,2})\s*st(?:one)?\.?\s*(?:(\d{1,2}(?:\.\d+)?)\s*(?:lbs?)?)?$/i.exec(text);
  if (match) return { value: +match[1] * 14 + Number(match[2] ?? 0), unit: 'lb', doubt: false };
  const pounds = /^(\d{1,3})\s*lbs?\.?\s*(\d{1,2})\s*oz$/i.exec(text);
  return pounds ? { value: +pounds[1] + +pounds[2] / 16, unit: 'lb', doubt: false } : null;
}

// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the parts of one pattern, each with what it refuses
function plain(text: string): CellSize | null {
  const match = new RegExp(
    String.raw`^(\D*?)(${NUMBER})(?:[\s-]+(\d{1,2})\/(\d{1,2}))?(?:\s*(?:\/|-|–|to|bis|a|à|tot)\s*(${NUMBER}))?\s*([\p{L}"″”]+\.?)?\s*(.*)$`,
    'u',
  ).exec(text);
  if (!match) return null;
  const [, before, first, top, bottom, second, word, after] = match;
  if (/[\p{L}]{16,}|\d/u.test(before) || /\d/.test(after)) return null;
  const one = readNumber(first);
  if (one === null) return null;
  // '19 m. Socken', '18 in Schuhen': a short word before another word is no unit.
  const unit = /^(?:in|m|g)\.?$/i.test(word ?? '') && /^\p{L}/u.test(after) ? null : unitOf(word);
  const remark = `${before} ${word !== undefined && unit === null ? word : ''} ${after}`.trim();
  // A remark that is neither a doubt nor a bracketed or short note would hide something: the cell is refused then.
  if (/\p{L}/u.test(remark) && !saysDoubt(remark) && remark.length > 40) return null;
  // '5 3/4+': a little more.
  const doubtful = remark !== '' && (saysDoubt(remark) || /\p{L}|^[+-]$/u.test(remark));
  const value = one + (top ? Number(top) / Number(bottom) : 0);
  if (second === undefined) return { value, unit, doubt: doubtful };
  const two = readNumber(second);
  // Two readings of one size: their middle, with doubt. Far apart they are something else.
  if (two === null || Math.abs(two - value) > 0.06 * Math.max(two, value)) return null;
  return { value: (value + two) / 2, unit, doubt: true };
}

const unitOf = (word: string | undefined): Unit | null => (word === undefined ? null : unitWord(word));

/** A unit as people write it: 'Zoll', 'cms', 'pulgadas'. */
export function unitWord(word: string): Unit | null {
  const plainWord = word.toLowerCase().replace(/\.$/, '');
  return unitNamed(UNIT_WORDS.get(plainWord) ?? plainWord);
}

/** Two sizes in one cell, 'left/right': null where there are not two numbers. */
export function cellPair(cell: string): [string, string] | null {
  if (cell.length > 60) return null;
  const match = new RegExp(
    String.raw`^(\D*?)(${NUMBER})(\D{0,6})[/|\\;&+–-](\D{0,6})(${NUMBER})\s*([\p{L}"]*)\s*([?*]?)\s*$`,
    'u',
  ).exec(cell.trim());
  if (match && [match[1], match[3], match[4]].every(saysLittle)) {
    const [, before, one, behind, above, two, unit, asked] = match;
    // A doubt at the end may be of both: '179/170?'.
    const size = (number: string, ...beside: string[]) =>
      `${number} ${unit}`.trim() + (beside.some(saysDoubt) ? '?' : '');
    return [size(one, before, behind, asked), size(two, above, asked)];
  }
  // '214/-': only one side was measured.
  const [one, other, ...more] = cell.split(/[/|\\;]/).map((part) => part.trim());
  if (other === undefined || more.length > 0 || saysNothing(one) === saysNothing(other)) return null;
  return cellSize(saysNothing(one) ? other : one) === null ? null : [one, other];
}

/**
 * Two sizes in one cell with the letters of their sides, 'G 17,5 / D 17,8', 'L: 17.5cm R: 17.8cm': by side. Null where
 * the cell does not say both sides.
 */
export function cellSides(cell: string): { readonly left: string; readonly right: string } | null {
  if (cell.length > 80) return null;
  for (const [pattern, word, size] of [
    [LETTER_FIRST, 1, 2],
    [LETTER_LAST, 2, 1],
  ] as const) {
    if (!saysLittle(cell.replace(pattern, ' '))) continue;
    const parts = [...cell.matchAll(pattern)].map((m) => ({ side: sideWord(m[word]), size: m[size].trim() }));
    const left = parts.find(({ side }) => side === 'left')?.size;
    const right = parts.find(({ side }) => side === 'right')?.size;
    if (parts.length === 2 && left !== undefined && right !== undefined) return { left, right };
  }
  return null;
}

/** 'R 150', '17,5 cm li.': one size with the side it is of; null where the cell says no side or more than that. */
export function cellSide(cell: string): { readonly side: 'left' | 'right'; readonly size: string } | null {
  const last = ONE_LAST.exec(cell.trim())?.groups;
  // '175 g' is grams and 'G 175' is gauche.
  const { side: word = '', size = '' } =
    ONE_FIRST.exec(cell.trim())?.groups ?? (last && unitWord(last.side) === null ? last : {});
  const side = sideWord(word);
  return side === null ? null : { side, size };
}

/** Signs, sides, units, doubts: beside sizes other words say something that would be lost with them. */
const saysLittle = (text: string): boolean =>
  (text.match(/\p{L}+/gu) ?? []).every(
    (word) => sideWord(word) !== null || unitWord(word) !== null || saysDoubt(word),
  );

const SIZE = String.raw`[~<>≈]?\d+(?:[.,]\d+)?(?:\s?(?:mm|cm|in|"))?\??`;
const LETTER_FIRST = new RegExp(String.raw`(\p{L}+)\.?\s*[:=]?\s*(${SIZE})`, 'gu');
const LETTER_LAST = new RegExp(String.raw`(${SIZE})\s*\(?(\p{L}+)`, 'gu');
const ONE_FIRST = new RegExp(String.raw`^(?<side>\p{L}+)\.?\s*[:=]?\s*(?<size>${SIZE})$`, 'u');
const ONE_LAST = new RegExp(String.raw`^(?<size>${SIZE})\s*\(?(?<side>\p{L}+)\.?\)?$`, 'u');

function sideWord(word: string): 'left' | 'right' | null {
  const folded = word.toLowerCase();
  if (leftWords.has(folded) && !rightWords.has(folded)) return 'left';
  return rightWords.has(folded) && !leftWords.has(folded) ? 'right' : null;
}
