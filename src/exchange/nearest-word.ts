import { lettersApart } from '../statistics/letters-apart.js';

const MOST_LETTERS = 2;

/**
 * The word of a list that a mistyped one most likely meant, or null when none is near: at most two letters
 * changed, added, left out or swapped (optimal string alignment distance).
 * nearestWord('solid-aof', ['solid-afo', 'kafo']) = 'solid-afo'.
 */
export function nearestWord(typed: string, words: readonly string[]): string | null {
  if (typed.length > 80) return null;
  const most = Math.min(MOST_LETTERS, Math.floor(typed.length / 3));
  // A letter more or less is a letter apart: words of quite another length are not looked at.
  const near = words.filter((word) => Math.abs(word.length - typed.length) <= most);
  const scored = near.map((word) => ({
    word,
    letters: lettersApart(typed.toLowerCase(), word.toLowerCase()),
  }));
  const best = scored.reduce((a, b) => (b.letters < a.letters ? b : a), { word: '', letters: Infinity });
  return best.letters <= most ? best.word : null;
}
