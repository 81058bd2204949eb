import { foldText } from './fold-words.js';
import { wordSet } from './phrase-table.js';
import { headingDate } from './written-date.js';

export const YEARS =
  '(?:y|yrs?|years?|j|jahre?|a|ans?|años?|anni|anno|jr|jaar|jaren|année|années|yo|y\\.?o\\.?)';
export const MONTHS = '(?:m|mo|mos|mths?|months?|mon|monate?|mois|mes|meses|mesi|mese|mnd|maanden|maand)';
export const WEEKS = '(?:w|wk|wks|wkn|weeks?|wo|wochen?|sem|semaines?|semanas?|sett|settimane?|weken)';

const NUMBER = String.raw`\d{1,2}(?:[.,]5|\s*½)?`;
/** Over a column 'm' is metres and 'a' a word: an age is written longer there. */
const WITH_UNIT = new RegExp(
  String.raw`(?<![\p{L}\d.,/])${NUMBER}\s*(?!(?:m|a)(?!\p{L}))(?:${YEARS}|${MONTHS}|${WEEKS})\.?(?![\p{L}\d])`,
  'iu',
);
const BEHIND_WORD = new RegExp(String.raw`(\p{L}+)\s(${NUMBER})(?![\p{L}\d.,/])`, 'u');
/** 'Years' heads ages as well; beside a number it is their unit, and 'lft' is a left. */
const ageWords = new Set([...wordSet((v) => v.age)].filter((word) => !/^(?:years|yrs|lft)/.test(word)));

/** Whether words speak of an age. */
export const saysAge = (text: string): boolean =>
  foldText(text)
    .split(' ')
    .some((word) => ageWords.has(word));

/** The age a heading names: '6 wkn', '3½ y', 'Foot length (cm) at age 4'; 'Age 1' alone numbers ages. Null for none. */
export function headingAge(heading: string): string | null {
  if (!/\d/.test(heading)) return null;
  const written = WITH_UNIT.exec(heading)?.[0];
  if (written !== undefined) return written;
  const [said = '', word = '', age = null] = BEHIND_WORD.exec(heading) ?? [];
  return ageWords.has(foldText(word)) && /\p{L}{3}/u.test(heading.replace(said, '')) ? age : null;
}

/** What says of which day the sizes under a heading are: a date, else an age. */
export const headingDay = (heading: string): string | null => headingDate(heading) ?? headingAge(heading);
