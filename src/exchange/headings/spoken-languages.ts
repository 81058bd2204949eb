import { foldText, phrasesOf } from './fold-words.js';

/** What a cell for the family's language says, by code. */
const LANGUAGE_NAMES: Readonly<Record<string, string>> = {
  en: 'english|englisch|anglais|ingles|engels|inglese',
  de: 'german|deutsch|allemand|aleman|duits|tedesco',
  fr: 'french|französisch|français|frances|frans|francese',
  es: 'spanish|spanisch|espagnol|español|spaans|spagnolo',
  nl: 'dutch|niederländisch|neerlandais|neerlandes|nederlands|olandese',
  it: 'italian|italienisch|italien|italiano|italiaans',
  pl: 'polish|polnisch|polonais|polaco|pools|polacco',
  tr: 'turkish|türkisch|turc|turco|turks',
  ar: 'arabic|arabisch|arabe|arabo',
  ur: 'urdu',
  so: 'somali',
  ro: 'romanian|rumänisch|roumain|rumano|roemeens|rumeno',
  pt: 'portuguese|portugiesisch|portugais|portugues|portugees|portoghese',
  uk: 'ukrainian|ukrainisch|ukrainien|ucraniano|oekraiens|ucraino',
};
const BY_LANGUAGE = new Map(
  Object.entries(LANGUAGE_NAMES).flatMap(([code, names]) =>
    phrasesOf(names).map((name) => [name, code] as const),
  ),
);

/** 'Polnisch' -> 'pl'; the word itself where it is none of these. */
export const languageOf = (text: string): string => BY_LANGUAGE.get(foldText(text)) ?? text.slice(0, 35);
