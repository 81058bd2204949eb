import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { type Language, languages, type Vocabulary } from './vocabulary.js';

/** The rows of words.csv. A new word is a word more in its cell, a new meaning a row more. */
const rows: readonly Record<'meaning' | Language, string>[] = parse(
  readFileSync(new URL('./words.csv', import.meta.url)),
  { columns: true, bom: true },
);

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
