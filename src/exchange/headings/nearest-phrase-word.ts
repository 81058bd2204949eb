import { nearestWord } from '../nearest-word.js';
import { phraseTable } from './phrase-table.js';

/** Single words of the vocabulary long enough to be told from a slip, by their first letter. */
const words = new Map<string, string[]>();
for (const phrase of phraseTable.keys()) {
  if (phrase.includes(' ') || phrase.length < 5) continue;
  words.set(phrase[0], [...(words.get(phrase[0]) ?? []), phrase]);
}

/** The word of the vocabulary that a mistyped one most likely meant: 'lenght' is 'length'. */
export function nearestPhraseWord(word: string): string | null {
  if (word.length < 4) return null;
  const known = words.get(word[0]) ?? [];
  return (word.length > 4 ? nearestWord(word, known) : null) ?? shortened(word, known);
}

/** 'aangem.', 'abform.', 'polp.': the start of words that all can stand for the same. */
function shortened(word: string, known: readonly string[]): string | null {
  const whole = known.filter((phrase) => phrase.startsWith(word));
  const [first, ...others] = whole.map((phrase) =>
    (phraseTable.get(phrase) ?? []).map(({ concept }) => JSON.stringify(concept)),
  );
  const shared = first?.some((concept) => others.every((of) => of.includes(concept)));
  return shared ? whole[0] : null;
}
