import { foldText } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { spokenWords } from '../headings/read-words.js';
import { daysAt, type SaidDay, saysStage, stageSaid, withoutDays } from './cell-device-dates.js';
import { bothWords, leftWords, nothingWords, noWords, rightWords, wordIn, yesWords } from './cell-words.js';
import {
  AGAIN,
  DENIES,
  familyNamed,
  isName,
  type NamedFamily,
  nameOfOne,
  STOCK,
  saysNoName,
} from './device-names.js';

export type DeviceSide = 'left' | 'right' | 'both';
/** One device as a cell names it; its word is without its side. */
export interface SpokenDevice extends NamedFamily {
  readonly side: DeviceSide | null;
  /** The name as the cell has it. */
  readonly said: string;
  /** Days the cell itself gives, as written. */
  readonly cast: string | null;
  readonly fitted: string | null;
  /** 'In attesa', 'not fitted yet': ordered; 'outgrown': retired. */
  readonly state: 'ordered' | 'retired' | null;
  /** 'AFO fitted', 'cast for KAFOs' without a day: what was done at the visit. */
  readonly stage: SaidDay['is'] | null;
  /** 'Then a TLSO': another than the one its cell names before it. */
  readonly after?: boolean;
}

/** Words that are a side alone ('AFO sin'), and 'the', 'of', 'without' between others. */
const EITHER = new Set(['de', 'des', 'der', 'sin', 'd', 'i', 'e', 'le']);

/** 'Repair GRAFO strap', 'KAFO L lengthened': work on a device that is worn, and no new one. */
export const MENDED: ReadonlySet<string> = spokenWords('mended');

/** On the days of the one before: 'night splints same time'. */
export const SAME_DAYS = new RegExp(`(?:^|\\s)(?:${[...spokenWords('same-days')].join('|')})$`);

/** 'Scanned? no', 'no helmet', 'declined': words that take back what the others say. */
export const takesBack = (text: string): boolean =>
  text.includes('?') ||
  foldText(text)
    .split(' ')
    .some((word) => DENIES.has(word));
/** 'Igual', 'weaning, nights only': the device of before goes on, or how it is worn. */
export const UNCHANGED = wordSet((v) => v.unchanged);

/** What a device is made of, where it stands in a name: 'plaster jacket' is no cast. */
const MADE_OF = new Set(['plaster', 'platre', 'gips']);

/** Not yet there, in words around another: 'del pending', 'nog niet klaar', 'livraison à prévoir'. */
const PENDING =
  /\b(?:pending|awaiting|awaited|waiting|(?:not|noch nicht|nog niet|pas|todavia no|aun no|non)\b.*\b(?:yet|fitted|delivered|fertig|klaar|encore|listo|lista|entregado|ancora|pronto|pronta)|a prevoir|en attente|ausstehend|in attesa|da consegnare|te leveren|pendiente|to be fitted|tbf|noch nicht|nog niet|non ancora)\b/;

/** The days of a device; what is made to no cast, from stock or on the shoe, has one: it was given then. */
function daysFor(
  named: string,
  own: readonly SaidDay[],
): { readonly cast: string | null; readonly fitted: string | null } {
  const day = (is: SaidDay['is']) => own.find((d) => d.is === is)?.written ?? null;
  const given =
    own.length === 1 &&
    !own[0].told &&
    foldText(named)
      .split(' ')
      .some((word) => STOCK.has(word) || nameOfOne(word) === 'shoe-raise');
  return given ? { cast: null, fitted: own[0].written } : { cast: day('cast'), fitted: day('fitted') };
}

/** 'Dynamische Fußorthese (SMO)': the name in brackets is the one that is meant. */
function inBrackets(named: string): SpokenDevice | null {
  const [, before, name = ''] = /^([^()]+)\((\p{L}[^()]*)\)$/u.exec(named.trim()) ?? [];
  if (before === undefined || nameOfOne(name) === null) return null;
  const { side, plural, fresh } = spoken(before, []);
  return { ...spoken(name, []), side, plural, fresh };
}

/** A piece of a marked cell as one device. */
export function spoken(text: string, days: readonly SaidDay[]): SpokenDevice {
  const said = withoutDays(text);
  const own = daysAt(text, days);
  const { cast, fitted } = daysFor(said, own);
  const bracketed = inBrackets(said);
  if (bracketed !== null) return { ...bracketed, cast, fitted };
  const all = foldText(said.replace(/['’]s\b/gi, 's').replace(/\(.*?\d{2,}.*?\)|\d+\/\d+/g, ' '))
    .replace(SAME_DAYS, '')
    .split(' ')
    .filter((w) => w !== '');
  const told = sideApart(all).rest;
  const again = own.length > 0 && told.length > 0 && told.every((word) => AGAIN.has(word));
  const { words, state } = again ? { words: all, state: null } : stateApart(all);
  const { side, rest } = sideApart(words);
  const named = familyNamed(rest, words);
  const nameless = named.family === null && saysNoDevice(rest, own.length > 0);
  return {
    ...named,
    side,
    word: nameless ? '' : named.word,
    said: said.replace(/\s+/g, ' '),
    cast,
    fitted,
    state,
    stage: own.length > 0 || state !== null ? null : stageDone(said, rest),
  };
}

/** A day and month without a year. */
export const SHORT_DAY = /(?<![\d./-])\d{1,2}[./-]\s?\d{1,2}(?![\d/-]|\.\d)/;

/** What words without a day say was done; null where they take it back. */
function stageDone(named: string, words: readonly string[]): SaidDay['is'] | null {
  const done = words.filter((word, at) => !MADE_OF.has(word) || at === words.length - 1);
  // 'Gips 3.2.' has a day of its own, though nobody knows its year.
  return takesBack(named) || SHORT_DAY.test(named) ? null : stageSaid(done.join(' '));
}

/** 'HKAFO outgrown', 'in attesa', 'del pending': the state that words end in, or are all of, and the words before it. */
function stateApart(words: readonly string[]): { words: readonly string[]; state: SpokenDevice['state'] } {
  if (isName(words.join(' '))) return { words, state: null };
  for (let n = Math.min(4, words.length); n >= 1; n--) {
    const phrase = words.slice(-n).join(' ');
    const said = saysStage(phrase) && n === 1 ? null : wordIn(phrase, 'deviceStates');
    if (said === 'ordered' || said === 'retired') return { words: words.slice(0, -n), state: said };
    // 'Awaiting AFOs', 'AFO (waiting for funding)': of words that all say it the names are left.
    if (said === null && n === words.length && PENDING.test(phrase))
      return { words: words.filter(isName), state: 'ordered' };
  }
  return { words, state: null };
}

/** Words that name nothing: of a cast or a fitting, of stock, 'again', 'none'. */
function saysNoDevice(words: readonly string[], dated: boolean): boolean {
  const phrase = words.join(' ');
  if (
    phrase === '' ||
    STOCK.has(phrase) ||
    nothingWords.has(phrase) ||
    noWords.has(phrase) ||
    yesWords.has(phrase) ||
    wordIn(phrase, 'deviceStates') !== null
  )
    return true;
  return words.every(
    (word) => STOCK.has(word) || saysStage(word) || UNCHANGED.has(word) || (dated && saysNoName(word)),
  );
}

/** The side that words say, and the words that say none. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one case a word, a phrase before its words
function sideApart(words: readonly string[]): { side: DeviceSide | null; rest: string[] } {
  let side: DeviceSide | null = null;
  const rest: string[] = [];
  for (let at = 0; at < words.length; at++) {
    const two = words.slice(at, at + 2).join(' ');
    const three = words.slice(at, at + 3).join(' ');
    const known = isName(two) || (words.length === 1 && isName(words[at]));
    if (!known && bothWords.has(three) && three.includes(' ')) [side, at] = ['both', at + 2];
    else if (!known && bothWords.has(two) && two.includes(' ')) [side, at] = ['both', at + 1];
    else if (EITHER.has(words[at]) && at > 0 && at < words.length - 1) rest.push(words[at]);
    else if (bothWords.has(words[at])) side = 'both';
    else if (leftWords.has(words[at]) && !rightWords.has(words[at])) side = joinSides(side, 'left');
    else if (rightWords.has(words[at])) side = joinSides(side, 'right');
    else rest.push(words[at]);
  }
  return { side, rest };
}

export function joinSides(a: DeviceSide | null, b: DeviceSide | null): DeviceSide | null {
  if (a === null || b === null || a === b) return a ?? b;
  return 'both';
}
