import { foldText } from './fold-words.js';
import { spokenMeanings, vocabularies } from './read-words.js';
import { languages } from './vocabulary.js';

const monthLists = languages.map((language) => vocabularies[language].months.split('|'));

/** Number of a month by its folded name, in all languages. */
export const monthNumbers: ReadonlyMap<string, number> = new Map(
  monthLists.flatMap((months) =>
    months.flatMap((names, index) => names.split(' ').map((name) => [foldText(name), index + 1] as const)),
  ),
);
const names = monthLists
  .flatMap((months) => months.flatMap((of) => of.split(' ')))
  .filter((name) => /^\p{L}+$/u.test(name))
  .sort((a, b) => b.length - a.length);
const MONTH = String.raw`(?<!\p{L})(?:${names.join('|')})(?!\p{L})\.?`;

const SEASON = String.raw`(?<!\p{L})(?:${[...spokenMeanings('season').keys()].join('|')})(?!\p{L})`;

/** A date among other words: with a day, or 'Mar 2026', 'März 26', '03/2026'. */
const WRITTEN = [
  String.raw`\d{4}-\d{1,2}(?:-\d{1,2})?(?!\d)`,
  String.raw`(?<!\d)\d{1,2}[-/.]\s?\d{1,2}[-/.]\s?\d{2,4}`,
  String.raw`(?<!\d)(?:\d{1,2}(?:st|nd|rd|th|er|\.)?[- ]?(?:de |of )?)?${MONTH}[- ]?(?:de |del )?['’]?(?:\d{4}|\d{2})(?!\d)`,
  String.raw`(?<!\d)\d{1,2}[-/.]\d{4}(?!\d)`,
].join('|');
const IN_SEASON = String.raw`${SEASON} (?:\d{4}|['’]\d{2})(?!\d)`;
const [ONE, SEASON_ALONE] = [WRITTEN, IN_SEASON].map((written) => new RegExp(written, 'iu'));
const EVERY = new RegExp(`${WRITTEN}|${IN_SEASON}`, 'giu');

export const writtenDates = (text: string): RegExpStringIterator<RegExpExecArray> => text.matchAll(EVERY);

/** The date inside a heading: 'Foot L 12/03/2024', 'Fußlänge Jan 26'; a season only where there is no other. */
export const headingDate = (heading: string): string | null =>
  /\d/.test(heading) ? ((ONE.exec(heading) ?? SEASON_ALONE.exec(heading))?.[0] ?? null) : null;
