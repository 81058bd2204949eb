/** One found phrase in a text. */
export interface Match {
  readonly at: number;
  readonly end: number;
  readonly text: string;
}

/** Matches any of the phrases as whole words; '*' stands for the rest of a word, a space for a space or a hyphen. */
export function anyOf(phrases: readonly string[]): RegExp {
  const alternatives = phrases
    .toSorted((a, b) => b.length - a.length)
    .map((p) =>
      p
        .split(/[\s-]+/)
        .map((w) => w.replace(/[.+?^${}()|[\]\\/]/g, '\\$&').replace(/\*/g, '[a-z0-9]*'))
        .join('[\\s-]+'),
    );
  // By first letter: where none begins with the next letter of the text, one look rules all out.
  const byLetter = new Map<string, string[]>();
  for (const a of alternatives) {
    const letter = /^[a-z0-9]/.test(a) ? a[0] : '';
    byLetter.set(letter, [...(byLetter.get(letter) ?? []), a]);
  }
  const grouped = [...byLetter].map(([letter, those]) =>
    letter === '' ? those.join('|') : `${letter}(?:${those.map((a) => a.slice(1)).join('|')})`,
  );
  return new RegExp(`(?<![a-z0-9])(?:${grouped.join('|')})(?![a-z0-9])`, 'g');
}

/** Not to be passed over between the words of a sentence: 'no', or what begins another clause. */
export const BREAKS =
  /\b(?:no|not|never|ha[sd]nt|havent|since|after|before|because|until|place|instead|replac[a-z]*)\b/;

/** 'strap .. last hole' as what stands between its gaps: ['strap', 'last hole']; a class is a part of its own. */
const BETWEEN = / \.\. | (?=@)|(?<=@\w+) /;
export const partsOf = (sentence: string): string[] => sentence.split(BETWEEN);

/**
 * A sentence as note-sentences.json writes it, as a pattern: '@name' stands for any word of a class, '..' for up to three
 * more words.
 */
export function sentencePattern(sentence: string, wordsOf: (part: string) => readonly string[]): RegExp {
  const gaps = sentence.match(new RegExp(BETWEEN, 'g')) ?? [];
  const source = partsOf(sentence)
    .map((part) => anyOf(wordsOf(part)).source)
    .reduce((before, part, i) => {
      const more = gaps[i - 1] === ' .. ' ? `(?:(?!${BREAKS.source})[a-z0-9.%]+[\\s-]+){0,3}?` : '';
      return `${before}[\\s-]+${more}${part}`;
    });
  return new RegExp(source, 'g');
}

/** A text with 'the' and 'his' blanked, so that 'mark on liner' is found in 'mark on the liner'; every place in it stays. */
export const withoutArticles = (text: string): string =>
  text.replace(/\b(?:the|his|her|their|my|our)(?= )/g, (word) => ' '.repeat(word.length));

/**
 * Whether a text has a word that any of the phrases begins with: most notes name no finding, and a look at their words
 * costs a twentieth of a search for every phrase.
 */
export function beginsAny(phrases: readonly string[]): (text: string) => boolean {
  const first = phrases.map((p) => /^[a-z0-9]*\*?/.exec(p)?.[0] ?? '');
  const words = new Set(first.filter((w) => !w.endsWith('*')));
  const stems = new Set(first.filter((w) => w.endsWith('*')).map((w) => w.slice(0, -1)));
  if (words.has('') || stems.has('')) return () => true;
  const longest = Math.max(0, ...[...stems].map((stem) => stem.length));
  const isOne = (word: string): boolean => {
    if (words.has(word)) return true;
    for (let n = Math.min(longest, word.length); n > 0; n--) if (stems.has(word.slice(0, n))) return true;
    return false;
  };
  return (text) => (text.match(/[a-z0-9]+/g) ?? []).some(isOne);
}

/** All of a global pattern; matchAll would make the pattern, of hundreds of phrases, anew at every call. */
export function findAll(pattern: RegExp, text: string): Match[] {
  const found: Match[] = [];
  pattern.lastIndex = 0;
  for (let m = pattern.exec(text); m; m = pattern.exec(text)) {
    found.push({ at: m.index, end: m.index + m[0].length, text: m[0] });
    if (m[0] === '') pattern.lastIndex++;
  }
  return found;
}

export const has = (pattern: RegExp, text: string): boolean => text.search(pattern) >= 0;

export const last = (pattern: RegExp, text: string): Match | undefined => findAll(pattern, text).at(-1);

const atStart = new Map<RegExp, RegExp>();

/** The same pattern right at the start of a text, made once: 'risk explained', 'prevention'. */
export function anchored(pattern: RegExp): RegExp {
  const made = atStart.get(pattern) ?? new RegExp(`^[\\s:=-]*(?:${pattern.source})`, 'g');
  atStart.set(pattern, made);
  return made;
}
