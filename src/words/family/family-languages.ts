import { english } from './english.js';
import type { FamilyWords } from './family-words.js';
import { arabic } from './languages/arabic.js';
import { french } from './languages/french.js';
import { polish } from './languages/polish.js';
import { spanish } from './languages/spanish.js';
import { turkish } from './languages/turkish.js';
import { ukrainian } from './languages/ukrainian.js';

export const familyLanguages: readonly FamilyWords[] = [
  english,
  spanish,
  arabic,
  turkish,
  polish,
  french,
  ukrainian,
];

/** The first of the languages asked for that there are words in; null without one. */
export const firstLanguage = (asked: readonly string[]): string | null =>
  asked
    .map((tag) => tag.toLowerCase().split('-')[0])
    .find((tag) => familyLanguages.some((w) => w.language === tag)) ?? null;

/** The words of a language tag ('es-MX' is answered in Spanish); English where we have none. */
export const familyWords = (language: string): FamilyWords =>
  familyLanguages.find((w) => language.toLowerCase().split('-')[0] === w.language) ?? english;
