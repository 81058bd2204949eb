/** Edits between two words: a letter changed, added, left out, or two exchanged (optimal string alignment). lettersApart('lenght', 'length') = 1. */
export function lettersApart(a: string, b: string): number {
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

/** Is a word another with nothing but vowels left out in haste: 'blstr', 'ulcr', 'clubft'? */
export function lacksVowels(short: string, whole: string): boolean {
  let at = 0;
  for (const letter of whole) {
    if (letter === short[at]) at++;
    else if (at === 0 || !'aeiou'.includes(letter)) return false;
  }
  return at === short.length;
}
