import type { MeasureId } from '../../records/measure.js';
import type { DimensionId, PartId } from './by-part.js';
import { phrasesOf } from './fold-words.js';
import { spokenLists, vocabularies } from './read-words.js';
import { type FieldId, type Language, languages, type Vocabulary } from './vocabulary.js';

/** What a word or phrase of a heading can stand for. */
export type Concept =
  | { readonly is: 'field'; readonly field: FieldId }
  | { readonly is: 'measure'; readonly measure: MeasureId }
  | { readonly is: 'part'; readonly part: PartId }
  | { readonly is: 'dimension'; readonly dimension: DimensionId }
  | { readonly is: 'side'; readonly side: 'left' | 'right' | 'both' }
  | { readonly is: 'unit'; readonly unit: string }
  | { readonly is: 'device'; readonly family: string }
  | {
      readonly is:
        | 'person'
        | 'name'
        | 'number'
        | 'digits'
        | 'date'
        | 'age'
        | 'age-unit'
        | 'today'
        | 'other-time'
        | 'first-visit'
        | 'yet-to-come'
        | 'noise'
        | 'remarks'
        | 'skin'
        | 'kept';
    };

export interface PhraseSense {
  readonly concept: Concept;
  /** Languages in which the phrase has this sense; all for an international abbreviation. */
  readonly languages: readonly Language[];
}

const conceptKey = (concept: Concept): string => JSON.stringify(concept);

/** Adds the phrases of a list in one sense; `language` is null for what all of them share. */
type AddPhrases = (list: string, concept: Concept, language: Language | null) => void;

function build(): { table: Map<string, PhraseSense[]>; longest: number } {
  const found = new Map<string, Map<string, { concept: Concept; languages: Set<Language> }>>();
  const add: AddPhrases = (list, concept, language) => {
    for (const phrase of phrasesOf(list)) {
      const senses = found.get(phrase) ?? new Map();
      found.set(phrase, senses);
      const key = conceptKey(concept);
      const sense = senses.get(key) ?? { concept, languages: new Set<Language>() };
      for (const l of language ? [language] : languages) sense.languages.add(l);
      senses.set(key, sense);
    }
  };
  for (const language of languages) addVocabulary(language, add);
  for (const [family, list] of spokenLists('device'))
    add(family.includes('|') ? list : `${list}|${family}`, { is: 'device', family }, null);
  for (const [unit, list] of spokenLists('unit')) add(list, { is: 'unit', unit }, null);
  const table = new Map(
    [...found].map(([phrase, senses]) => [
      phrase,
      [...senses.values()].map((s) => ({ concept: s.concept, languages: [...s.languages] })),
    ]),
  );
  return { table, longest: Math.max(...[...table.keys()].map((phrase) => phrase.split(' ').length)) };
}

function addVocabulary(language: Language, add: AddPhrases): void {
  const v = vocabularies[language];
  for (const [field, list] of Object.entries(v.fields))
    add(list, { is: 'field', field: field as FieldId }, language);
  for (const [part, list] of Object.entries(v.parts))
    add(list, { is: 'part', part: part as PartId }, language);
  for (const [dimension, list] of Object.entries(v.dimensions))
    add(list, { is: 'dimension', dimension: dimension as DimensionId }, language);
  for (const [measure, list] of Object.entries(v.measures))
    add(list, { is: 'measure', measure: measure as MeasureId }, language);
  for (const side of ['left', 'right'] as const) add(v[side], { is: 'side', side }, language);
  add(withoutOrder(v), { is: 'side', side: 'both' }, language);
  add(v.ageMonths, { is: 'age-unit' }, language);
  add(v.ageWeeks, { is: 'age-unit' }, language);
  add(v.otherTime, { is: 'other-time' }, language);
  for (const is of ['first-visit', 'other-time'] as const) add(v.firstVisit, { is }, language);
  add(v.yetToCome, { is: 'yet-to-come' }, language);
  for (const is of ['person', 'name', 'number', 'date', 'age', 'today', 'noise', 'kept'] as const)
    add(v[is], { is }, language);
  for (const of of ['remarks', 'skin'] as const) add(v[of], { is: of }, language);
}

/** Words for both sides; 'l r' is left out, because over a column it is an order. */
function withoutOrder(v: Vocabulary): string {
  const one = new Set([...phrasesOf(v.left), ...phrasesOf(v.right)]);
  return phrasesOf(v.both)
    .filter((phrase) => !phrase.split(' ').some((word) => one.has(word)) && !/^(lr|rl|\d)/.test(phrase))
    .join('|');
}

export const { table: phraseTable, longest: longestPhrase } = build();

/** Stems of body parts and ends of words for their dimension, longest first: what 'wadenumfang' is made of. */
const stems = (kind: 'parts' | 'dimensions', of: readonly Language[]) =>
  of
    .flatMap((language) =>
      Object.entries(vocabularies[language][kind]).flatMap(([id, list]) =>
        phrasesOf(list)
          .filter((phrase) => !phrase.includes(' ') && phrase.length >= 3)
          .map((stem) => ({ stem, id, language })),
      ),
    )
    .sort((a, b) => b.stem.length - a.stem.length);
const PARTS = stems('parts', ['de', 'nl', 'en']);
const DIMENSIONS = stems('dimensions', ['de', 'nl', 'en']);

/** 'wadenumfang', 'voetlengte', 'knöchelbr.': a part and a dimension written as one word; null for any other word. */
export function compoundSenses(word: string): [PhraseSense, PhraseSense] | null {
  return wholeCompound(word) ?? shortenedCompound(word);
}

/** A part and the beginning of words that all stand for one dimension. */
function shortenedCompound(word: string): [PhraseSense, PhraseSense] | null {
  for (const { stem, id, language } of PARTS) {
    const rest = word.slice(stem.length);
    if (!word.startsWith(stem) || rest.length < 2) continue;
    const own = DIMENSIONS.filter((d) => d.language === language && d.stem.startsWith(rest));
    if (new Set(own.map((d) => d.id)).size === 1) return compound(id, own[0].id, language);
  }
  return null;
}

const compound = (part: string, dimension: string, language: Language): [PhraseSense, PhraseSense] => [
  { concept: { is: 'part', part: part as PartId }, languages: [language] },
  { concept: { is: 'dimension', dimension: dimension as DimensionId }, languages: [language] },
];

function wholeCompound(word: string): [PhraseSense, PhraseSense] | null {
  for (const dimension of DIMENSIONS) {
    if (!word.endsWith(dimension.stem) || word.length <= dimension.stem.length) continue;
    const rest = word.slice(0, -dimension.stem.length).replace(/(?:s|n|en)$/, '');
    const part = PARTS.find(({ stem, language }) =>
      language === dimension.language ? stem === rest || stem.replace(/(?:s|n|en|e)$/, '') === rest : false,
    );
    if (part) return compound(part.id, dimension.id, part.language);
  }
  return null;
}

/** A folded word list as a set for asking whether a cell is one of its words. */
export function wordSet(pick: (v: Vocabulary) => string): ReadonlySet<string> {
  return new Set(languages.flatMap((language) => phrasesOf(pick(vocabularies[language]))));
}
