import type { IsoDate } from '../../records/dates.js';
import { foldText } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { spokenWords } from '../headings/read-words.js';
import { writtenDates } from '../headings/written-date.js';
import { isDay } from './cell-date.js';
import type { ColumnOrder } from './choose-dates.js';

/** 'Livré', 'livrée', 'livrées', 'consegnato', 'consegnate': one word, whatever it is said of. */
const uninflected = (phrase: string): string => phrase.replace(/(?<=\p{L}{4})(?:ee?|[aio])?s?$/u, '');
const stageWords = (...phrases: Iterable<string>[]): Set<string> =>
  new Set(phrases.flatMap((said) => [...said].map(uninflected)));

/** With short forms that stand before a day in a cell and over no column. */
const castWords = stageWords(
  wordSet((v) => v.fields['device.cast_date'] ?? ''),
  spokenWords('cast-in-cell'),
);
const fittedWords = stageWords(
  wordSet((v) => v.fields['device.fitted_date'] ?? ''),
  spokenWords('fitted-in-cell'),
);
// Over a column 'On' is the day it was put on; in a cell any day can stand behind it.
fittedWords.delete('on');
/** Between such a word and its day: 'livrées en juin 2025'. */
const LINK = / (?:en|on|in|am|im|le|op|il|el|al|du|vom|of|since)$/;
/** 'Both cast 17/4/25' behind a dash: every device of the cell. */
const EVERY =
  /[-–—,;:(]\s*(?:both|all|beide|alle|les deux|tous|toutes|ambos|ambas|todos|entrambi|tutti)\s*$/i;
/** How many words before a date can say what it is the date of: 'gegipst am'. */
const WORDS_BEFORE = 3;

/** A day a cell names, as written, and what it is the day of; of `every` device of the cell where it says so. */
export interface SaidDay {
  readonly is: 'cast' | 'fitted';
  readonly written: string;
  readonly every: boolean;
  /** Whether a word says of what it is the day. */
  readonly told: boolean;
}

/** The first of the signs that stand for days in a marked cell. */
const SIGN = 0xe000;
const SIGNS = /[\ue000-\uf8ff]/g;

/**
 * A cell with each day, and the words that say what it is the day of, as one sign. A date without a word before it is
 * the cast's; 'fitted', 'geliefert', 'depuis' make it the fitting's.
 */
export function daysMarked(cell: string): { readonly text: string; readonly days: readonly SaidDay[] } {
  let text = cell.replace(SIGNS, ' ');
  const days: SaidDay[] = [];
  for (const match of [...writtenDates(text), ...monthsOf(text)].sort((a, b) => b.index - a.index)) {
    if (!isDay(match[0]) && !MONTH_YEAR.test(match[0])) continue;
    const before = text.slice(0, match.index);
    const told = stageBefore(before);
    const behind = told.from < match.index ? null : stageBehind(text.slice(match.index + match[0].length));
    const stage = behind === null ? told : { is: behind.is, from: told.from };
    const end = match.index + match[0].length + (behind?.length ?? 0);
    const kept = before.slice(0, stage.from);
    const every = EVERY.test(kept);
    text = `${every ? kept.replace(EVERY, ', ') : kept}${String.fromCharCode(SIGN + days.length)}${text.slice(end)}`;
    days.push({ is: stage.is, written: match[0], every, told: behind !== null || stage.from < match.index });
  }
  return { text, days };
}

/** The days whose signs stand in a piece of a marked cell, in its order. */
export const daysAt = (piece: string, days: readonly SaidDay[]): SaidDay[] =>
  [...piece.matchAll(SIGNS)].map(([sign]) => days[sign.charCodeAt(0) - SIGN]);

export const withoutDays = (piece: string): string =>
  piece
    .replace(SIGNS, ' ')
    .replace(/\([\s,;–-]*\)/g, ' ')
    .replace(/(?:\s*[,;:–-])+\s*$/, '')
    .trim();

/** 'Scan 14/10/2025' under casts: the day, where a word of its stage is all that stands beside it. */
export function dayAlone(cell: string): string {
  const { text, days } = daysMarked(cell);
  return days.length === 1 && withoutDays(text) === '' ? days[0].written : cell;
}

/** Whether words speak of a cast or a fitting. */
export const saysStage = (text: string): boolean =>
  foldText(text)
    .split(' ')
    .map(uninflected)
    .some((word) => word.length > 3 && word !== 'from' && (castWords.has(word) || fittedWords.has(word)));

/** The stage a cell speaks of without a day: it is the visit's. */
export function stageSaid(text: string): 'cast' | 'fitted' | null {
  const words = foldText(text)
    .split(' ')
    .filter((word) => word.length > 1)
    .map(uninflected);
  if (words.some((word) => castWords.has(word))) return 'cast';
  return words.at(-1) === 'on' || words.some((word) => fittedWords.has(word)) ? 'fitted' : null;
}

/** '04/24' behind a word of a cast or fitting: a month and its year, as no month has that number. */
export const MONTH_YEAR = /^(\d{1,2})\/(1[3-9]|[2-9]\d)$/;
const monthsOf = (text: string): RegExpExecArray[] =>
  [...text.matchAll(/(?<![\d/.-])(?:0?[1-9]|1[0-2])\/(?:1[3-9]|[2-9]\d)(?![\d/.-])/g)].filter(
    (match) => stageBefore(text.slice(0, match.index)).from < match.index,
  );

/** '25/02/2025 delivered,': the word behind a day, with nothing more behind it. */
function stageBehind(after: string): { is: 'cast' | 'fitted'; length: number } | null {
  const [said = '', word = ''] = /^\s+(\p{L}{3,})(?=\s*(?:$|[,;.)]))/u.exec(after) ?? [];
  const phrase = uninflected(foldText(word));
  if (fittedWords.has(phrase)) return { is: 'fitted', length: said.length };
  return castWords.has(phrase) ? { is: 'cast', length: said.length } : null;
}

/**
 * 'Fitted 24/6' with the year that brings it nearest to the day of its visit; a day and month that `order` does not tell
 * apart stays as it is.
 */
export function withYearOf(text: string, visit: IsoDate, order: ColumnOrder): string {
  return text.replace(SHORT_DAYS, (short, one: string, sign: string, two: string, at: number) => {
    if (stageBefore(text.slice(0, at)).from === at) return short;
    const dayFirst = Number(one) > 12 || (order === 'dmy' && Number(two) <= 12);
    if (!dayFirst && Number(two) <= 12 && order !== 'mdy') return short;
    const [day, month] = (dayFirst ? [one, two] : [two, one]).map((part) => part.padStart(2, '0'));
    const year = Number(visit.slice(0, 4));
    const far = (y: number) => Math.abs(Date.parse(`${y}-${month}-${day}`) - Date.parse(visit));
    const [nearest] = [year, year - 1, year + 1].sort((a, b) => far(a) - far(b));
    const written = `${one}${sign}${two}${sign}${nearest}`;
    return isDay(written) ? written : short;
  });
}
const SHORT_DAYS = /(?<![\d./-])(\d{1,2})([./-])(\d{1,2})(?![\d/-]|\.\d)/g;

function stageBefore(before: string): { is: 'cast' | 'fitted'; from: number } {
  const words = [...before.matchAll(/\p{L}+/gu)];
  for (let n = Math.min(WORDS_BEFORE, words.length); n >= 1; n--) {
    const from = words[words.length - n].index;
    const said = foldText(before.slice(from).replace(/[\s:(,.-]+$/, ''));
    for (const phrase of [said, said.replace(LINK, '')].map(uninflected)) {
      const begins = phrase === 'on' && /^\s*$|[;,.]\s*$|\p{L} \d\s*$/u.test(before.slice(0, from));
      if (begins || fittedWords.has(phrase)) return { is: 'fitted', from };
      if (castWords.has(phrase)) return { is: 'cast', from };
    }
  }
  return { is: 'cast', from: before.length };
}
