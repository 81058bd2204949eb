/** One found phrase in a text. */
export interface Match {
  readonly at: number;
  readonly end: number;
  readonly text: string;
}

/** Matches any of the phrases as whole words; '*' stands for the rest of a word, a space for a space or a hyphen. */
export function anyOf(phrases: readonly string[]): RegExp {
  const alternatives = phrases.toSorted((a, b) => b.length - a.length).map((p) => p.replace(/[\s-]+/g, ' '));
  return new RegExp(`(?<![a-z0-9])(?:${branches(alternatives)})(?![a-z0-9])`, 'g');
}

/**
 * The alternatives in their order, branched letter by letter: tried one by one at every word of a note, hundreds of them
 * cost a millisecond a note. Neighbours that go on with different letters exclude each other, so that putting those
 * with the same letter together changes no match.
 */
function branches(alternatives: readonly string[]): string {
  const out: string[] = [];
  for (let i = 0; i < alternatives.length; ) {
    if (!/^[^* ]/.test(alternatives[i])) {
      out.push(written(alternatives[i++]));
      continue;
    }
    const byLetter = new Map<string, string[]>();
    for (; i < alternatives.length && /^[^* ]/.test(alternatives[i]); i++) {
      const [letter, rest] = [alternatives[i][0], alternatives[i].slice(1)];
      byLetter.set(letter, [...(byLetter.get(letter) ?? []), rest]);
    }
    for (const [letter, rests] of byLetter)
      out.push(written(letter) + (rests.length === 1 ? written(rests[0]) : `(?:${branches(rests)})`));
  }
  return out.join('|');
}

const written = (phrase: string): string =>
  phrase
    .replace(/[.+?^${}()|[\]\\/]/g, '\\$&')
    .replace(/\*/g, '[a-z0-9]*')
    .replace(/ /g, '[\\s-]+');

export const findAll = (pattern: RegExp, text: string): Match[] =>
  [...text.matchAll(pattern)].map((m) => ({ at: m.index, end: m.index + m[0].length, text: m[0] }));

export const has = (pattern: RegExp, text: string): boolean => text.search(pattern) >= 0;

export const last = (pattern: RegExp, text: string): Match | undefined => findAll(pattern, text).at(-1);

const atStart = new Map<RegExp, RegExp>();

/** The same pattern right at the start of a text, made once: 'risk explained', 'prevention'. */
export function anchored(pattern: RegExp): RegExp {
  const made = atStart.get(pattern) ?? new RegExp(`^[\\s:=-]*(?:${pattern.source})`, 'g');
  atStart.set(pattern, made);
  return made;
}
