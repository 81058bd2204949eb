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
    // '½' is written as 1/2, with a stroke of its own.
    .replace(/[¼-¾⅓-⅞]/g, (sign) => ` ${sign.normalize('NFKC').replace('⁄', '/')}`)
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

/** One of the sizes of a cell: its text as `cellSize` reads it, and what stands beside it. */
export interface SaidSize {
  readonly text: string;
  readonly side: 'left' | 'right' | null;
  /** 'Calf L' of 'Foot L 190, calf L 245'; empty where nothing or only a side is said. */
  readonly name: string;
}

const ITEM =
  /[~<>≈±]?\d+(?:[.,]\d+)?(?:[ -][1-9]\d?\/(?:2|3|4|8|16)(?!\d))?(?:\s?(?:mm|cm|m|kg|lbs?|in|")(?![\p{L}\d]))?\??/gu;
const SEPARATES = /[/|\\;&+–-]/;

/**
 * Every size of a cell with its side or name, before it or behind it: 'G 17,5 / D 17,8', '17,5 cm li.', '168/172', 'Foot L 190,
 * R 192; calf L 245'. None where other words stand beside them, which would be lost.
 */
export const cellSizes = remembered((cell): readonly SaidSize[] => {
  if (cell.length > 300) return [];
  const found = [...cell.matchAll(ITEM)];
  const ends = [0, ...found.map((item) => item.index + item[0].length)];
  const gaps = ends.map((end, n) => cell.slice(end, found[n]?.index));
  const labels = gaps.map(labelOf);
  const [first] = labels;
  const last = labels[labels.length - 1];
  const isEmpty = ({ side, name }: Label) => side === null && name === '';
  const behind = isEmpty(first);
  if (found.length === 0 || (!isEmpty(last) && !(behind && last.side !== null))) return [];
  const doubt = gaps.map((gap) => (saysDoubt(gap) ? '?' : ''));
  const sizes = found.map(([size], n) => ({
    ...labels[behind ? n + 1 : n],
    text: size + (size.endsWith('?') ? '' : doubt[n] || (n === found.length - 1 ? doubt[n + 1] : '')),
  }));
  // '175 g' is grams and 'G 175' is gauche.
  if (behind && sizes.length === 1 && unitWord(gaps[1].replace(/[^\p{L}]/gu, '')) !== null) return [];
  return sizes;
});

interface Label {
  readonly side: 'left' | 'right' | null;
  readonly name: string;
}

/** The words between sizes; a unit behind a size, signs and doubts say nothing of which size it is. */
function labelOf(gap: string, at: number): Label {
  const own =
    at === 0
      ? gap
      : gap.replace(/^\s?(\p{L}+)\.?/u, (as, word) => (unitWord(word) && !sideWord(word) ? '' : as));
  const words = (own.match(/[\p{L}.'()]+/gu) ?? [])
    .map((word) => word.replace(/^[.()']+|[.()']+$/g, ''))
    .filter((word) => word !== '' && (sideWord(word) !== null || !saysDoubt(word)));
  const side = words.length === 1 ? sideWord(words[0]) : null;
  return { side, name: side === null ? words.join(' ') : '' };
}

/** Two sizes in one cell of which nothing says the sides, '168/172', or '214/-' where only one was measured. */
export const cellPair = (cell: string): readonly [string, string] | null =>
  cell.length > 60 ? null : (twoPlain(cell) ?? oneOfTwo(cell));

function twoPlain(cell: string): readonly [string, string] | null {
  const sizes = cellSizes(cell);
  const plain = sizes.every(({ side, name }) => side === null && name === '');
  const between = /\d\??(\D{1,14}?)[~<>≈±]?\d+(?:[.,]\d+)?\D*$/u.exec(cell)?.[1] ?? '';
  if (sizes.length !== 2 || !plain || !SEPARATES.test(between)) return null;
  const [one, two] = sizes.map(({ text }) => text);
  const unit = /\p{L}|"/u.test(one) ? '' : ` ${/\p{L}+|"/u.exec(two)?.[0] ?? ''}`;
  // A doubt at the end may be of both: '179/170?'.
  const doubt = /\?$/.test(one) || /\?$/.test(two) ? '?' : '';
  return [`${one.replace('?', '')}${unit}`.trim() + doubt, two];
}

/** '214/-', '219/209-210', '203/plaster': a size, and what is said of the other side. */
function oneOfTwo(cell: string): readonly [string, string] | null {
  const parts = cell.split(/[/|\\;]/).map((part) => part.trim());
  const isSize = (part: string) => /^[~<>≈±]?\d/.test(part) && cellSize(part) !== null;
  const isWord = (part: string) => saysNothing(part) || /^\p{L}{3,12}$/u.test(part);
  const [one, two] = parts;
  // '10 1/4' and '12/2' are no such two.
  const whole = isSize(one) && isSize(two ?? '') && !/[–-]/.test(cell);
  const told = parts.some(isSize) && parts.every((part) => isSize(part) || isWord(part));
  return parts.length === 2 && told && !whole && !/\d \d$/.test(one) ? [one, two] : null;
}

function sideWord(word: string): 'left' | 'right' | null {
  const folded = word.toLowerCase();
  if (leftWords.has(folded) && !rightWords.has(folded)) return 'left';
  return rightWords.has(folded) && !leftWords.has(folded) ? 'right' : null;
}
