const MOST_LETTERS = 2;

/**
 * The word of a list that a mistyped one most likely meant, or null when none is near: at most two letters
 * changed, added, left out or swapped (optimal string alignment distance).
 * nearestWord('solid-aof', ['solid-afo', 'kafo']) = 'solid-afo'.
 */
export function nearestWord(typed: string, words: readonly string[]): string | null {
  if (typed.length > 80) return null;
  // A letter more or less is a letter apart: words of quite another length are not looked at.
  const near = words.filter((word) => Math.abs(word.length - typed.length) <= MOST_LETTERS);
  const scored = near.map((word) => ({
    word,
    letters: lettersApart(typed.toLowerCase(), word.toLowerCase()),
  }));
  const best = scored.reduce((a, b) => (b.letters < a.letters ? b : a), { word: '', letters: Infinity });
  return best.letters <= Math.min(MOST_LETTERS, Math.floor(typed.length / 3)) ? best.word : null;
}

function lettersApart(a: string, b: string): number {
  const d = Array.from({ length: a.length + 1 }, (_, i) => [i, ...Array<number>(b.length).fill(0)]);
  for (let j = 0; j <= b.length; j++) d[0][j] = j;
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const changed = a[i - 1] === b[j - 1] ? 0 : 1;
      d[i][j] = Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + changed);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.length][b.length];
}
