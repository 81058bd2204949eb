import { foldText } from './fold-words.js';
import { spokenMeanings } from './read-words.js';

const BY_LANGUAGE = spokenMeanings('language');

/** 'Polnisch' -> 'pl'; the word itself where it is none of these. */
export const languageOf = (text: string): string => BY_LANGUAGE.get(foldText(text)) ?? text.slice(0, 35);
