import { foldWords, phrasesOf } from '../headings/fold-words.js';
import { type Candidate, headingCandidates, likeliestMeaning } from '../headings/heading-meaning.js';
import type { Meaning } from '../headings/meaning.js';
import { spokenMeanings, vocabularies } from '../headings/read-words.js';
import { languages } from '../headings/vocabulary.js';
import { headingDay, saysAge } from '../headings/written-age.js';
import { sideIn } from './cell-words.js';
import type { SheetTable } from './grid.js';
import { fileTitle, measureInTitle } from './title-measure.js';

/** Candidates of a heading. */
export function candidatesAt(table: SheetTable, index: number, heading: string): readonly Candidate[] {
  const half = halfOfPair(table, index, heading);
  if (half) return [half];
  const own = heading === '' ? [] : headingCandidates(heading);
  if (heading === '' || own.some((c) => c.meaning.kind === 'reading' && c.strength >= 0.8)) return own;
  // Beside a circumference of the head, or in a list of helmets, a bare 'Width' is the head's.
  if (table.headings.some(isOfHead) || isOfHelmets(table)) {
    const found = isOfHead(heading) ? [] : ofHead(heading);
    if (found.length > 0) return [...found, ...own];
  }
  if (own.some((c) => c.meaning.kind === 'reading')) return own;
  // 'L' and 'R' in a list whose title says of what: probably that.
  const what = [...table.titles, fileTitle(table.file)].map(measureInTitle).find((title) => title !== null);
  const bare = heading.replace(headingDay(heading) ?? '', ' ').trim();
  const titled = headingCandidates(`${what} ${bare}`).filter(
    ({ meaning, strength }) =>
      strength >= 0.9 && meaning.kind === 'reading' && meaning.side !== 'row' && meaning.side !== 'none',
  );
  return what
    ? [...own, ...titled.map((c) => ({ ...c, strength: sideIn(bare) === null ? c.strength * 0.84 : 0.9 }))]
    : own;
}

/** Of 'Foot length L/R' over two columns the one side; the empty heading beside it is the second of the two. */
function halfOfPair(table: SheetTable, index: number, heading: string): Candidate | null {
  const next = table.headings[index + 1];
  const before = table.headings[index - 1];
  const pairOf = (text: string) =>
    headingCandidates(text).find(
      (c) =>
        c.meaning.kind === 'reading' && (c.meaning.side === 'left-right' || c.meaning.side === 'right-left'),
    );
  const split = (c: Candidate, second: boolean): Candidate => {
    const m = c.meaning as Extract<Meaning, { kind: 'reading' }>;
    const leftFirst = m.side === 'left-right';
    return { ...c, meaning: { ...m, side: leftFirst === second ? 'right' : 'left' } };
  };
  const beside = (at: number) => table.rows.some(({ cells }) => (cells[at] ?? '') !== '');
  if (heading !== '' && next === '' && beside(index + 1)) {
    const pair = pairOf(heading);
    if (pair) return split(pair, false);
  }
  if (heading === '' && before && beside(index)) {
    const pair = pairOf(before);
    if (pair) return split(pair, true);
  }
  return null;
}

/** 'Helmet clinic 2026', 'Helmet delivered': nothing but heads is measured for one. */
export function isOfHelmets({
  titles,
  file,
  headings,
}: Pick<SheetTable, 'titles' | 'file' | 'headings'>): boolean {
  const texts = [...titles, fileTitle(file), ...headings];
  return texts.some((text) =>
    foldWords(text).some((word) => HELMETS.has(word) || HELMETS.has(word.replace(/s$/, ''))),
  );
}
const HELMETS = new Set(
  [...spokenMeanings('device')].flatMap(([word, family]) =>
    family === 'cranial-orthosis' && !word.includes(' ') ? [word] : [],
  ),
);

/** What a bare 'Width' is where only heads are measured. */
export const ofHead = (heading: string): Candidate[] =>
  // 'Age' is the child's.
  (saysAge(heading) ? [] : HEAD_WORDS)
    .flatMap((word) => headingCandidates(`${word} ${heading}`))
    .filter(
      ({ meaning, strength }) => strength >= 0.9 && (meaning.kind === 'reading' || meaning.kind === 'keep'),
    );

/** 'Longitud' is no word of English: a bare heading is read beside the head's word of each language. */
const HEAD_WORDS = languages.map(
  (language) => phrasesOf(vocabularies[language].parts.head ?? '')[0] ?? 'head',
);

export const isOfHead = (heading: string): boolean => {
  const meaning = likeliestMeaning(heading);
  return meaning?.kind === 'reading' && meaning.measure === 'head_circumference';
};
