import type { Region } from '../../../rules/fit-rule.js';
import type { FindingKind } from '../finding.js';
import { anySentence, sentencesIn } from './note-sentences.js';
import words from './note-words.json' with { type: 'json' };
import { anyOf, BREAKS, beginsAny, findAll, has, type Match, withoutArticles } from './phrases.js';

/** A word of a note that names a finding. */
export interface Term extends Match {
  readonly kind: FindingKind;
}

/** Words that name a finding, by its kind. */
const alone = Object.entries(words.findings).map(([kind, list]) => ({
  kind: kind as FindingKind,
  pattern: anyOf(list),
}));

/** Two words that say it together, in either order unless told: 'gastroc a bit tighter', 'release of psoas', 'hinge on left has gone'. */
const paired = words.pairs.map(({ kind, one, other, within, order, of }) => ({
  kind: kind as FindingKind,
  one: anyOf(listed(one)),
  other: anyOf(listed(other)),
  within,
  ordered: order !== undefined,
  ofDevice: of === 'device',
}));

/** A pair writes its words out; '@places' stands for all of that list. */
function listed(given: readonly string[]): readonly string[] {
  const lists = words as unknown as Readonly<Record<string, readonly string[]>>;
  return given.flatMap((word) => (word.startsWith('@') ? lists[word.slice(1)] : [word]));
}

const mayName = beginsAny(
  [...Object.values(words.findings), ...words.pairs.map(({ one }) => listed(one))].flat(),
);

/** Every word of a text that names a finding, and every two that do together. */
export function namedIn(clause: string, region: Region | null = null): Term[] {
  const text = withoutArticles(clause);
  const together = sentencesIn(text, region);
  if (!mayName(text)) return together;
  const single = alone.flatMap(({ kind, pattern }) => findAll(pattern, text).map((m) => ({ ...m, kind })));
  const pairs = paired.flatMap(({ kind, one, other, within, ordered, ofDevice }) => {
    if (ofDevice && !has(patterns.device, text)) return [];
    const first = findAll(one, text);
    const second = first.length > 0 ? findAll(other, text) : [];
    return first.flatMap((a) =>
      second
        .filter((b) => near(text, a, b, within) || (!ordered && near(text, b, a, within)))
        .map((b) => {
          const [at, end] = [Math.min(a.at, b.at), Math.max(a.end, b.end)];
          return { at, end, text: text.slice(at, end), kind };
        }),
    );
  });
  return [...single, ...pairs, ...together];
}

/** Does one stand behind the other with at most so many words between, none of them 'no' or the begin of another clause? */
function near(text: string, before: Match, behind: Match, within: number): boolean {
  const between = text.slice(before.end, behind.at);
  return (
    behind.at > before.end &&
    /^[\s-]+(?:[a-z0-9]+[\s-]+)*$/.test(between) &&
    !BREAKS.test(between) &&
    between.split(/[\s-]+/).filter((w) => w !== '').length <= within
  );
}

/** Lists of words that are one pattern each. */
// biome-ignore format: a list of names
const lists = [
  'lasting', 'fades', 'quickly', 'resolved', 'repaired', 'almostResolved', 'history', 'returns',
  'advice', 'adviceAfter', 'others', 'othersHave', 'othersReport', 'device', 'colourChoice', 'colours',
  'bones', 'needDevice', 'notDurations', 'places', 'clear', 'planned', 'noneNow', 'illnesses',
  'activities', 'markedThings', 'unchanged',
] as const;

/** What else a note says, made from the lists of words. */
export const patterns = {
  ...(Object.fromEntries(lists.map((name) => [name, anyOf(words[name])])) as Record<
    (typeof lists)[number],
    RegExp
  >),
  notFindings: anySentence(words.notFindings),
  negated: anyOf(words.negation.before),
  negatedAfter: anyOf(words.negation.after),
  negationEnds: anyOf(words.negation.ends),
  doubled: anyOf(words.negation.double),
  othersOwn: anyOf(words.others.map((o) => `${o}s`)),
  coloured: anyOf(words.colouredThings),
  filler: anyOf(words.bareFiller),
  nothingSeen: anyOf([...words.nothingSeen, ...words.clear]),
  unbraced: anyOf(words.unbraced.always),
  unbracedByHelmet: anyOf(words.unbraced['but on a helmet']),
  unbracedBySpinalBrace: anyOf(words.unbraced['but on a spinal brace']),
  unbracedByEither: anyOf(words.unbraced['but on a hand splint or spinal brace']),
  unbracedByHandSplint: anyOf(words.unbraced['but on a hand splint']),
  outsideCauses: anyOf([...words.outsideCauses, ...words.activities]),
  still: anyOf(['still', 'noch', 'encore', 'todavia', 'yet']),
};
