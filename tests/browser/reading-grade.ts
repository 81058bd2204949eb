/**
 * US school grade a text can be read at, by the Flesch-Kincaid formula (Kincaid et al., 1975; coefficients from
 * memory): 0.39 words a sentence + 11.8 syllables a word - 15.59. Grade 6 is an age of eleven to twelve. Syllables are
 * counted as groups of vowels without a silent e, which is near enough for short words.
 */
export function readingGrade(text: string): number {
  const sentences = text.split(/[.!?:]+\s/).filter((s) => s.trim() !== '').length;
  const words = text.match(/[A-Za-z’']+|\d+/g) ?? [];
  const syllables = words.reduce((n, word) => n + syllablesOf(word), 0);
  return 0.39 * (words.length / sentences) + 11.8 * (syllables / words.length) - 15.59;
}

function syllablesOf(word: string): number {
  if (/^\d+$/.test(word)) return 1;
  const lower = word.toLowerCase().replace(/(?:[^laeiouy]es|ed|[^laeiouy]e)$/, '');
  return Math.max(1, lower.match(/[aeiouy]+/g)?.length ?? 1);
}
