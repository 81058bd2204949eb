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
  return new RegExp(`(?<![a-z0-9])(?:${alternatives.join('|')})(?![a-z0-9])`, 'g');
}

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
