import { foldText, phrasesOf } from '../headings/fold-words.js';
import { vocabularies } from '../headings/read-words.js';
import { languages } from '../headings/vocabulary.js';
import { writtenDates } from '../headings/written-date.js';
import { cellDate } from './cell-date.js';

/** The days a device cell names beside the device, as written: 'L AFO cast 14/01/26, fitted 4/2/26'. */
export interface DeviceDates {
  readonly rest: string;
  readonly cast: string | null;
  readonly fitted: string | null;
}

const stage = (field: 'device.cast_date' | 'device.fitted_date') =>
  new Set(languages.flatMap((l) => phrasesOf(vocabularies[l].fields[field] ?? '')));
const castWords = stage('device.cast_date');
const fittedWords = stage('device.fitted_date');
/** How many words before a date can say what it is the date of: 'gegipst am'. */
const WORDS_BEFORE = 3;

/** A date without a word before it is the cast's; 'fitted', 'geliefert', 'depuis' make it the fitting's. */
export function deviceDates(cell: string): DeviceDates {
  let rest = cell;
  let cast: string | null = null;
  let fitted: string | null = null;
  for (const match of [...writtenDates(cell)].reverse()) {
    if (cellDate(match[0], '2099-12-31') === null) continue;
    const before = rest.slice(0, match.index);
    const stage = stageBefore(before);
    if (stage.is === 'fitted') fitted ??= match[0];
    else cast ??= match[0];
    rest = `${before.slice(0, stage.from)} ${rest.slice(match.index + match[0].length)}`;
  }
  return { rest: rest.replace(/\(\s*\)/g, ' ').trim(), cast, fitted };
}

/** Whether words speak of a cast or a fitting. */
export const saysStage = (text: string): boolean =>
  foldText(text)
    .split(' ')
    .some((word) => word.length > 3 && (castWords.has(word) || fittedWords.has(word)));

function stageBefore(before: string): { is: 'cast' | 'fitted'; from: number } {
  const words = [...before.matchAll(/\p{L}+/gu)];
  for (let n = Math.min(WORDS_BEFORE, words.length); n >= 1; n--) {
    const from = words[words.length - n].index;
    const phrase = foldText(before.slice(from).replace(/[\s:(,-]+$/, ''));
    if (fittedWords.has(phrase)) return { is: 'fitted', from };
    if (castWords.has(phrase)) return { is: 'cast', from };
  }
  return { is: 'cast', from: before.length };
}
