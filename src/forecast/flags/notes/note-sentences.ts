import type { Region } from '../../../rules/fit-rule.js';
import type { FindingKind } from '../finding.js';
import sentences from './note-sentences.json' with { type: 'json' };
import words from './note-words.json' with { type: 'json' };
import { findAll, type Match, partsOf, sentencePattern } from './phrases.js';

interface Sentence {
  readonly kind: FindingKind;
  /** The region it is of; null for any. */
  readonly only: Region | null;
  /** Of every part the words one of which must be in the text; empty where any may be. */
  readonly parts: readonly string[];
  readonly pattern: RegExp;
}

/** The words a class stands for; 'places' is the list of the body's parts. */
const classes = new Map([
  ...Object.entries(sentences.classes).map(([name, said]) => [name, said.split('|')] as const),
  ['places', words.places] as const,
]);
function wordsOf(part: string): readonly string[] {
  if (!part.startsWith('@')) return [part];
  const found = classes.get(part.slice(1));
  if (!found) throw new Error(`No class of words is named ${part}.`);
  return found;
}

/** Any of the sentences of a list, as one pattern. */
export const anySentence = (list: readonly string[]): RegExp =>
  new RegExp(
    list
      .toSorted((a, b) => b.length - a.length)
      .map((said) => sentencePattern(said, wordsOf).source)
      .join('|'),
    'g',
  );

const all: readonly Sentence[] = sentences.sentences.flatMap(({ kind, only, says }) =>
  says.split('|').map((sentence) => ({
    kind: kind as FindingKind,
    only: (only ?? null) as Region | null,
    parts: partsOf(sentence),
    pattern: sentencePattern(sentence, wordsOf),
  })),
);

/** For every first word, or its beginning where it ends in '*', the parts of sentences that may begin with it. */
const beginnings = new Map<string, string[]>();
const anywhere = new Set<string>();
for (const part of new Set(all.flatMap(({ parts }) => parts)))
  for (const said of wordsOf(part)) {
    const [first] = /^[a-z0-9]*\*?/.exec(said) ?? [''];
    if (first === '' || first === '*') anywhere.add(part);
    else beginnings.set(first, [...(beginnings.get(first) ?? []), part]);
  }

/** The parts of sentences that a text may hold: few, so that few patterns are tried. */
function partsIn(text: string): Set<string> {
  const found = new Set(anywhere);
  for (const word of new Set(text.match(/[a-z0-9]+/g) ?? []))
    for (let n = 0; n <= word.length; n++)
      for (const part of beginnings.get(n === 0 ? word : `${word.slice(0, n)}*`) ?? []) found.add(part);
  return found;
}

/** What words that stand together say: 'toes 5 mm over the edge', 'strap on its last hole'. */
export function sentencesIn(text: string, region: Region | null): (Match & { readonly kind: FindingKind })[] {
  const present = partsIn(text);
  return all
    .filter(({ only, parts }) => (only === null || only === region) && parts.every((p) => present.has(p)))
    .flatMap(({ kind, pattern }) => findAll(pattern, text).map((m) => ({ ...m, kind })));
}
