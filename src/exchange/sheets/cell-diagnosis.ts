import type { ConditionId } from '../../records/records.js';
import { conditionIds } from '../../records/records.js';
import { lacksVowels, lettersApart } from '../../statistics/letters-apart.js';
import { foldText, foldWords } from '../headings/fold-words.js';
import { spokenMeanings, spokenWords } from '../headings/read-words.js';
import { remembered } from '../remembered.js';
import { bothWords, leftWords, rightWords } from './cell-words.js';

/** A diagnosis cell: the conditions it names, what of it nobody knows, and what else it says. */
export interface SpokenDiagnosis {
  readonly conditions: readonly ConditionId[];
  readonly unknown: readonly string[];
  readonly side: 'left' | 'right' | 'both' | null;
  /** A spina bifida: skin may not warn and latex is to be kept away. */
  readonly spinaBifida: boolean;
}

/** Phrases are found inside a longer text; the longest wins. */
const PHRASES = new Map<string, ConditionId>([
  ...conditionIds.map((id) => [foldText(id), id] as const),
  ...([...spokenMeanings('condition')] as [string, ConditionId][]),
]);
/** Myelomeningocele at L3 or above belongs to the high group (level as written: 'MMC L3', 'Th12', 'T10-L1'). */
const HIGH_LEVELS =
  /\b(?:t|th|d)\s?\d{1,2}\b|\bl\s?[123]\b|\b(?:thoracic|thorakal|thoracique|thoracaal|toracic[ao]|high lumbar|high)\b/;
/** Each as its words, and once more without 'of the'. */
const LISTED = [...PHRASES].flatMap(([phrase, id]) =>
  [...new Set([phrase, phrase.replaceAll(/ (?:of|the)(?= )/g, '')])].map((p) => ({
    phrase: p.split(' '),
    id,
  })),
);
/** A word of any diagnosis is no slip of another. */
const WORDS = new Set(LISTED.flatMap(({ phrase }) => phrase));
const LONGEST = Math.max(...LISTED.map(({ phrase }) => phrase.length));
/** Words that qualify a diagnosis and name none. */
const BESIDE = spokenWords('beside-diagnosis');
/** Diagnoses and words of their own, a letter or two from a listed one: high tone is not low tone. */
const NOT_A_SLIP = spokenWords('no-slip');
const LEVEL = /^(?:[tlshcd]|th)\d{1,2}$/;

/** What a diagnosis cell says: 'MMC L3', 'L hemi', 'diplegia GMFCS III', 'T21 + pes planus', one or several in a cell. */
export const cellDiagnosis = remembered((cell: string): SpokenDiagnosis => {
  const found: ConditionId[] = [];
  const unknown: string[] = [];
  let side: SpokenDiagnosis['side'] = null;
  let spinaBifida = false;
  for (const part of cell.slice(0, 500).split(/[|;,+/\n&]|\s-\s|\((?=[^)]{6,})|\)/)) {
    const words = foldWords(part.replace(/\b([TLSD]|Th)\s?(\d{1,2})\b/g, '$1$2')).flatMap((w) => [w]);
    if (words.length === 0) continue;
    const joined = joinLevels(words);
    const { names, left } = namesIn(joined);
    for (const word of left) side = sideFrom(word, side);
    if (names.some((id) => id === 'myelomeningocele-low' || id === 'myelomeningocele-high')) {
      spinaBifida = true;
      if (HIGH_LEVELS.test(joined.join(' ')))
        names.forEach((id, i) => {
          if (id === 'myelomeningocele-low') names[i] = 'myelomeningocele-high';
        });
    }
    found.push(...names);
    const rest = left.filter(
      (word) =>
        sideFrom(word, null) === null && !BESIDE.has(word) && !LEVEL.test(word) && !/^\d+$/.test(word),
    );
    if (names.length === 0 && (rest.length > 0 || left.length === 0)) unknown.push(part.trim());
  }
  return { conditions: narrowed(found), unknown, side, spinaBifida };
});

/** The diagnoses that words name one after the other, and the words that are of none. */
function namesIn(words: readonly string[]): { names: ConditionId[]; left: string[] } {
  const names: ConditionId[] = [];
  const left: string[] = [];
  for (let at = 0; at < words.length; ) {
    const { id, length } = namedAt(words.slice(at, at + LONGEST));
    if (id) names.push(id);
    else left.push(words[at]);
    at += length;
  }
  return { names, left };
}

/** The longest diagnosis that words begin with, as it is listed or else with slips and shortened words. */
function namedAt(words: readonly string[]): { id: ConditionId | null; length: number } {
  for (let n = words.length; n > 0; n--) {
    const id = PHRASES.get(words.slice(0, n).join(' '));
    if (id) return { id, length: n };
  }
  for (let n = words.length; n > 0; n--) {
    const meant = LISTED.filter(
      ({ phrase }) => phrase.length === n && phrase.every((word, i) => isMeant(words[i], word)),
    );
    // Two diagnoses that are as near: neither.
    if (new Set(meant.map(({ id }) => id)).size === 1) return { id: meant[0].id, length: n };
  }
  return { id: null, length: 1 };
}

/** 'Cerebal' and 'musc' may stand for 'cerebral' and 'muscular', 'clubft' for 'clubfoot'; 'sma' for nothing but itself. */
function isMeant(said: string, word: string): boolean {
  if (said === word) return true;
  if (WORDS.has(said) || NOT_A_SLIP.has(said) || said[0] !== word[0]) return false;
  if (said.length >= 3 && word.length >= said.length + 3 && word.startsWith(said)) return true;
  if (said.length < 5) return false;
  return lacksVowels(said, word) || lettersApart(said, word) <= (said.length < 9 ? 1 : 2);
}

/** 'l 3' after a split of letters and digits is the level l3. */
function joinLevels(words: readonly string[]): string[] {
  const joined: string[] = [];
  for (let at = 0; at < words.length; at++) {
    const next = words[at + 1];
    if (/^(?:[tlsd]|th)$/.test(words[at]) && next !== undefined && /^\d{1,2}$/.test(next) && next !== '21') {
      joined.push(words[at] + next);
      at++;
    } else joined.push(words[at]);
  }
  return joined;
}

function sideFrom(word: string, before: SpokenDiagnosis['side']): SpokenDiagnosis['side'] {
  if (bothWords.has(word) && !/^\d|^b$/.test(word)) return 'both';
  const right = rightWords.has(word) && word !== 'd' && word !== 'de' ? 'right' : null;
  const one = leftWords.has(word) && !rightWords.has(word) ? 'left' : right;
  if (one === null || before === one) return before ?? one;
  return before === null ? one : 'both';
}

/** A hemiplegia is a cerebral palsy: the wider word is left out; scoliosis of nerve and muscle is not idiopathic. */
function narrowed(found: readonly ConditionId[]): ConditionId[] {
  const all = new Set(found);
  if (all.has('hemiplegia')) all.delete('cerebral-palsy');
  if (all.has('neuromuscular-scoliosis')) all.delete('idiopathic-scoliosis');
  if (
    all.has('idiopathic-scoliosis') &&
    [
      'cerebral-palsy',
      'spinal-muscular-atrophy',
      'muscular-dystrophy',
      'myelomeningocele-low',
      'myelomeningocele-high',
    ].some((id) => all.has(id as ConditionId))
  ) {
    all.delete('idiopathic-scoliosis');
    all.add('neuromuscular-scoliosis');
  }
  if (all.size > 1) all.delete('none');
  return [...all];
}
