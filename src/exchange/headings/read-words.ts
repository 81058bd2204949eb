import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { phrasesOf } from './fold-words.js';
import { type Language, languages, type Vocabulary } from './vocabulary.js';

/** A new word is a word more in its cell, a new meaning a row more. */
const rowsOf = <K extends string>(bytes: Buffer): readonly Record<'meaning' | K, string>[] =>
  parse(bytes, { columns: true, bom: true });
const rows = rowsOf<Language>(readFileSync(new URL('./words.csv', import.meta.url)));
/** Words that mean the same in whatever language they stand. Abbreviations are common practice, no source. */
const spoken = rowsOf<'words'>(readFileSync(new URL('./spoken.csv', import.meta.url)));

export const vocabularies = Object.fromEntries(
  languages.map((language) => [language, vocabularyOf(language)]),
) as Record<Language, Vocabulary>;

/** 'kept' is one list; 'parts foot' is the foot's among those of the parts. */
function vocabularyOf(language: Language): Vocabulary {
  const lists: Record<string, string | Record<string, string>> = {};
  for (const row of rows) {
    const [kind, id] = row.meaning.split(' ');
    if (id === undefined) lists[kind] = row[language];
    else if (row[language] !== '')
      lists[kind] = { ...(lists[kind] as Record<string, string>), [id]: row[language] };
  }
  return lists as unknown as Vocabulary;
}

/** The lists of a kind with what each stands for: 'device kafo' is the list of the kind 'device' for 'kafo'. */
export const spokenLists = (kind: string): readonly (readonly [id: string, list: string])[] =>
  spoken
    .filter(({ meaning }) => meaning.startsWith(`${kind} `))
    .map(({ meaning, words }) => [meaning.slice(kind.length + 1), words] as const);

/** What each folded phrase of a kind stands for; of two the later row. */
export const spokenMeanings = (kind: string): Map<string, string> =>
  new Map(spokenLists(kind).flatMap(([id, list]) => phrasesOf(list).map((phrase) => [phrase, id] as const)));

export const spokenWords = (kind: string): Set<string> =>
  new Set(spoken.filter(({ meaning }) => meaning === kind).flatMap(({ words }) => phrasesOf(words)));

/** Every word of every list. */
export const allWords: ReadonlySet<string> = new Set(
  [...spoken.map(({ words }) => words), ...rows.flatMap((row) => languages.map((language) => row[language]))]
    .flatMap((list) => phrasesOf(list.replaceAll(' ', '|')))
    .flatMap((phrase) => phrase.split(' ')),
);
