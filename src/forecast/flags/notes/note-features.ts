import { sentencesOf } from './split-clauses.js';

/** A word without its commonest English endings: 'rubbing', 'rubbed' and 'rubs' are one. */
const stem = (word: string): string => (word.length > 4 ? word.replace(/(?:ing|ed|es|s|er|ly)$/, '') : word);

/**
 * What each sentence of a note is weighed by: its words, its pairs of words, and its pairs with a word between. Every figure
 * counts as the same figure; what stands in a sentence twice counts once.
 */
export function noteFeatures(note: string): Set<string>[] {
  const plain = note.toLowerCase().replaceAll("n't", ' not').replaceAll('’', "'");
  return sentencesOf(plain).map(featuresOf);
}

function featuresOf(sentence: string): Set<string> {
  const words = (sentence.match(/\d+(?:\.\d+)?|\p{L}+|[?%+]/gu) ?? []).map((w) =>
    /^\d/.test(w) ? '0' : stem(w),
  );
  const features = new Set(words);
  words.forEach((word, i) => {
    if (i > 0) features.add(`${words[i - 1]} ${word}`);
    if (i > 1) features.add(`${words[i - 2]} _ ${word}`);
  });
  return features;
}
