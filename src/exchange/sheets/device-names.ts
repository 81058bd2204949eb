import { foldText, phrasesOf } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { spokenLists, spokenMeanings, spokenWords } from '../headings/read-words.js';
import { saysStage } from './cell-device-dates.js';

/** Every name of a device, and the families it can be, with | between them. */
const NAMES = new Map<string, string>();
for (const [family, list] of spokenLists('device'))
  for (const phrase of phrasesOf(family.includes('|') ? list : `${list}|${family}`))
    NAMES.set(phrase, family);
/** Words that beside an open name say which family it is. */
export const QUALIFIERS: ReadonlyMap<string, string> = spokenMeanings('kind');
const QUALIFIED = new Set(QUALIFIERS.values());
const KNEE = wordSet((v) => v.parts.knee ?? '');
/** Ordinary and orthopaedic footwear, 'stock boots', 'odd size shoes': no orthosis, named beside one. */
const FOOTWEAR = wordSet((v) => v.footwear);
export const isFootwear = (name: string): boolean =>
  FOOTWEAR.has(name) || (!hasNameWord(name) && FOOTWEAR.has(name.split(' ').at(-1) ?? ''));
const PLURALS = spokenWords('several');
/** Words that are no plural of a short name: 'cross!' is not several CROs. */
const NO_NAME = spokenWords('no-name');
/** 'Orthesen', 'férulas nocturnas', 'tutori notturni': several of a name, by the endings of the six languages. */
function pluralsOf(phrase: string): string[] {
  const words = phrase.split(' ');
  const every = (end: RegExp, plural: string) =>
    words.map((word) => (word.length > 2 ? word.replace(end, plural) : word)).join(' ');
  const [first, ...rest] = words;
  const more = (word: string) => word.replace(/([^s])$/, '$1s');
  const forms = [more(phrase), every(/([^s])$/, '$1s'), [more(first), ...rest].join(' ')];
  // 'AFO articolati': a short name in letters has no plural of its own.
  const last = (end: RegExp, plural: string) => phrase.replace(end, plural);
  const others = [
    every(/e$/, 'en'),
    every(/[oe]$/, 'i'),
    every(/a$/, 'e'),
    last(/[oe]$/, 'i'),
    last(/a$/, 'e'),
  ];
  return [...forms, ...others].filter((form) => form !== phrase);
}
/** Words that a name is said with instead of the other: 'attelle cruro-pédieuse', 'Oberschenkelschiene'. */
const NOUNS = [
  [/\borthese\b/, 'attelle'],
  [/orthese\b/, 'schiene'],
  [/orthese\b/, 'spalk'],
  [/\bortesis\b/, 'ferula'],
  [/\bortesi\b/, 'tutore'],
] as const;
for (const [phrase, family] of [...NAMES])
  for (const [noun, other] of NOUNS)
    if (noun.test(phrase))
      NAMES.set(phrase.replace(noun, other), NAMES.get(phrase.replace(noun, other)) ?? family);
for (const [phrase, family] of [...NAMES])
  for (const form of phrase.length > 2 ? pluralsOf(phrase) : []) {
    if (NO_NAME.has(form) || (NAMES.get(form) ?? family) !== family) continue;
    NAMES.set(form, family);
    PLURALS.add(form);
  }
/** 'supra-malléolaire' for 'supramalléolaire'. */
const JOINED = new Map(
  [...NAMES].filter(([name]) => name.length > 6).map(([name, family]) => [joined(name), family]),
);
function joined(phrase: string): string {
  return phrase.replaceAll(' ', '');
}
/** 'Boots + bar', 'scarpine + barra': one name, however it is joined; 'sAFO' is a name and no left AFO. */
export const withJoinedNames = (text: string): string =>
  text
    .replace(/(?<!\p{L})\p{Ll}\p{Lu}{2,5}s?(?!\p{L})/gu, (as) =>
      NAMES.has(as.toLowerCase()) ? as.toLowerCase() : as,
    )
    .replace(/(\p{L}+)\s*[+&]\s*(\p{L}+)/gu, (as, one, other) =>
      NAMES.has(foldText(`${one} ${other}`)) && !NAMES.has(foldText(other)) ? `${one} ${other}` : as,
    )
    .replace(/(\p{L}+)\s+(and|und|et|y|e|en)\s+(\p{L}+)/giu, (as, one, and, other) =>
      NAMES.has(foldText(`${one} ${and} ${other}`)) ? `${one}-${and}-${other}` : as,
    );
/** Words for a device that is another than the one before. */
const FRESH = spokenWords('fresh');
/** Words beside a device's name that change nothing of its family. */
const BESIDE = spokenWords('beside-device');

/** Beside a name a word that says nothing of the family: soft, new, from stock, fitted, a number. */
const isIdle = (word: string): boolean =>
  (word.length < 3 && !NAMES.has(word)) ||
  BESIDE.has(word) ||
  FRESH.has(word) ||
  STOCK.has(word) ||
  saysStage(word) ||
  /^\d+$/.test(word);
/** Words that take a device's name back: 'no AFO', 'Korsett abgelehnt'. */
export const DENIES: ReadonlySet<string> = spokenWords('denied');
/** Not made to a cast: it says nothing of which device. */
export const STOCK = wordSet((v) => v.stock);
/** Beside the days of one more of the same device: 'puis refait', 'second scan'. */
export const AGAIN: ReadonlySet<string> = spokenWords('again');
/** Words for any device: 'brace' alone is the one that is worn. */
const GENERIC = spokenWords('generic');
export const isGeneric = (word: string): boolean => GENERIC.has(word);

/** What words name: a family, or several with | between them, or null where nobody knows the whole; then the `likely` one of the known part. */
export interface NamedFamily {
  readonly family: string | null;
  readonly likely: string | null;
  readonly plural: boolean;
  /** 'New AFO': another than the one before. */
  readonly fresh: boolean;
  /** What is asked about: 'AFO (new cast)' as 'AFO'. */
  readonly word: string;
}

/** The family that the words of a piece say; `all` are they with its side. */
export function familyNamed(words: readonly string[], all: readonly string[]): NamedFamily {
  const word = words.join(' ');
  const family =
    NAMES.get(word) ??
    JOINED.get(joined(word)) ??
    longestName(words) ??
    qualified(words) ??
    NAMES.get(all.join(' ')) ??
    null;
  const bare = words.filter((w) => !isIdle(w) && !AGAIN.has(w)).join(' ');
  const asked = (family === null ? isGeneric(bare) : NAMES.get(bare) === family) ? bare : word;
  return {
    family,
    likely: family ?? (words.some((w) => DENIES.has(w)) ? null : likeliest(words)),
    plural: PLURALS.has(word) || words.some((w) => PLURALS.has(w)),
    fresh: words.some((w) => FRESH.has(w)),
    word: asked,
  };
}

/** The one family a whole text is a name of. */
export const nameOfOne = (text: string): string | null => {
  const family = NAMES.get(foldText(text));
  return family === undefined || family.includes('|') ? null : family;
};
export const isName = (phrase: string): boolean => NAMES.has(phrase);
/** Words beside the days of a device that say no more of it. */
export const saysNoName = (word: string): boolean => AGAIN.has(word) || BESIDE.has(word) || FRESH.has(word);

/** 'hinged', 'starr': a kind of a device that another cell or heading names. */
export const saysKind = (cell: string): boolean => QUALIFIERS.has(foldText(cell));

/** The word of a heading that names a device and leaves its family open: 'AFO' of 'AFO type'. */
export const openNameIn = (heading: string): string | null =>
  foldText(heading)
    .split(' ')
    .find((word) => NAMES.get(word)?.includes('|')) ?? null;

/** The family a word beside an open name says: 'hinged', or a name of its own, 'AFO PLS'. */
const kindOf = (word: string): string | undefined => {
  const named = NAMES.get(word);
  return QUALIFIERS.get(word) ?? (named?.includes('|') ? undefined : named);
};

/** 'AFO with hinges', 'US-Orthese mit Gelenk': a name that leaves the family open, and a word that says it. */
function qualified(words: readonly string[]): string | null {
  for (let n = words.length - 1; n >= 1; n--) {
    for (let at = 0; at + n <= words.length; at++) {
      const families = NAMES.get(words.slice(at, at + n).join(' '));
      if (families === undefined || !families.includes('|')) continue;
      const left = [...words.slice(0, at), ...words.slice(at + n)].filter(
        // 'm. Gelenk', 'c/ snodo': a letter or two before the word that says it.
        (word) => kindOf(word) !== undefined || (!isIdle(word) && word.length > 2),
      );
      const said = new Set(left.map(kindOf));
      const [family] = said;
      if (said.size === 1 && family !== undefined && families.split('|').includes(family)) return family;
    }
  }
  return null;
}

/**
 * The family of the known part of a name. 'AFO' beside a word nobody knows can be any of its families: the word may be
 * what tells them apart, so none is likelier.
 */
function likeliest(words: readonly string[]): string | null {
  const name = longestName(words, true);
  if (name === null) return compoundOf(words);
  if (name.includes('|')) return null;
  // 'Resting splint, wrist and hand' says two of them.
  const said = words.flatMap((_, at) =>
    [1, 2, 3]
      .map((n) => NAMES.get(words.slice(at, at + n).join(' ')))
      .filter((family) => family !== undefined),
  );
  return said.every((family) => family.split('|').includes(name)) ? name : null;
}

/** Names in one word that are long enough to end another. */
const WHOLE = new Map(
  [...NAMES].filter(([name, family]) => /^\p{L}{6,}$/u.test(name) && !family.includes('|')),
);

/** 'Nachtkorsett', 'Reklinationskorsett': words written as one that end in a name. */
function compoundOf(words: readonly string[]): string | null {
  const ends = words.flatMap((word) =>
    Array.from({ length: Math.max(0, word.length - 8) }, (_, at) => WHOLE.get(word.slice(at + 3))),
  );
  const families = new Set(ends.filter((family) => family !== undefined));
  const [family] = families;
  return families.size === 1 ? family : null;
}

/** Every word of a device's name. */
const OF_NAMES = new Set([...NAMES.keys()].flatMap((name) => name.split(' ')));
/** Families with those first whose names share the most beginnings of words with a name nobody knows. */
export function nearestFirst(families: readonly string[], name: string): string[] {
  const words = name.split(' ').filter((word) => word.length > 3 && !BESIDE.has(word) && !FRESH.has(word));
  const starts = words.map((word) => word.slice(0, 5));
  const shared = (family: string) =>
    starts.filter((start) =>
      [...NAMES].some(([known, of]) => of.split('|').includes(family) && ` ${known}`.includes(` ${start}`)),
    ).length;
  const score = new Map(families.map((family) => [family, shared(family)]));
  return [...families].sort((a, b) => score.get(b)! - score.get(a)!);
}

export const isWordOfDevice = (word: string): boolean => OF_NAMES.has(word) || compoundOf([word]) !== null;
/** Whether a text has a word of any device's name: of a long list's remarks hardly any has, and nothing else is looked for in it. */
export const hasNameWord = (text: string): boolean => {
  const words = foldText(text).split(' ');
  return words.some((word) => OF_NAMES.has(word)) || compoundOf(words) !== null;
};

/** Whether a text has a word that stands in nothing but names of devices. */
export const hasOwnWord = (text: string): boolean =>
  foldText(text)
    .split(' ')
    .some((word) => word.length > 2 && OF_NAMES.has(word) && !isHow(word));
/** 'Locked knees', 'nights': how a device is or is worn. */
export const saysHow = (words: string): boolean => words.split(' ').every(isHow);
const isHow = (word: string): boolean =>
  BESIDE.has(word) || QUALIFIERS.has(word) || KNEE.has(word) || KNEE.has(word.replace(/s$/, ''));

/** The longest known name inside the words, where what is left over says nothing of the family. */
function longestName(words: readonly string[], whateverElse = false): string | null {
  for (let n = words.length - 1; n >= 1; n--) {
    for (let at = 0; at + n <= words.length; at++) {
      const family = NAMES.get(words.slice(at, at + n).join(' '));
      if (family === undefined) continue;
      const left = [...words.slice(0, at), ...words.slice(at + n)];
      // A rigid corset is a corset, a KAFO with a knee joint a KAFO; of an AFO the kind is the family.
      const told = (word: string) =>
        (QUALIFIERS.get(word) === 'solid-afo' && !family.includes('|') && !QUALIFIED.has(family)) ||
        (family === 'kafo' && (KNEE.has(word) || QUALIFIERS.get(word) === 'articulated-afo'));
      const another = left.length > 1 && NAMES.has(left.join(' '));
      if (whateverElse || (!another && left.every((word) => isIdle(word) || told(word)))) return family;
    }
  }
  return null;
}
