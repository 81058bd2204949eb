import { foldText } from './fold-words.js';
import { phraseTable } from './phrase-table.js';

const SAYS_WHEN = /^(?:first-visit|other-time|today|noise)$/;
/** 'Mid', 'Exit', 'Start': nobody's word for anything else that heads a column. */
const isUnknown = (word: string): boolean =>
  (phraseTable.get(foldText(word)) ?? []).every(({ concept }) => SAYS_WHEN.test(concept.is));

/**
 * Headings without the words that say which of a row's visits they are of: 'Start length', 'Mid length' and 'Exit length' are a
 * length each. Only where such words stand before the same headings, one of them the day or the age of the visit.
 */
export function withoutVisitWords(
  headings: readonly string[],
  isDay: (heading: string) => boolean,
): readonly string[] {
  const parts = headings.map((heading) => /^(\p{L}+)\s+(\S.*)$/u.exec(heading.trim()));
  const words = new Map<string, Set<string>>();
  for (const part of parts)
    if (part !== null && isUnknown(part[1]))
      words.set(part[2], (words.get(part[2]) ?? new Set()).add(part[1]));
  const shared = (word: string) =>
    [...words].filter(([, before]) => before.size > 1 && before.has(word)).map(([rest]) => rest);
  return headings.map((heading, at) => {
    const [, word = '', rest = heading] = parts[at] ?? [];
    const of = word === '' ? [] : shared(word);
    return of.length > 1 && of.some(isDay) ? rest : heading;
  });
}
