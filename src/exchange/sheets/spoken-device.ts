import { foldText, phrasesOf } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { spokenLists, spokenMeanings, spokenWords } from '../headings/read-words.js';
import { daysAt, type SaidDay, saysStage, stageSaid, withoutDays } from './cell-device-dates.js';
import { bothWords, leftWords, nothingWords, noWords, rightWords, wordIn, yesWords } from './cell-words.js';

export type DeviceSide = 'left' | 'right' | 'both';
/** One device as a cell names it. */
export interface SpokenDevice {
  /** A family, or several with | between them where the name leaves it open, or null where nobody knows the word. */
  readonly family: string | null;
  /** Where nobody knows the whole name: the family of the part of it that is known, to be confirmed. */
  readonly likely: string | null;
  readonly side: DeviceSide | null;
  /** 'AFOs': more than one. */
  readonly plural: boolean;
  /** The name without its side, folded: what is asked about. */
  readonly word: string;
  /** The same as the cell has it. */
  readonly said: string;
  /** Days the cell itself gives, as written. */
  readonly cast: string | null;
  readonly fitted: string | null;
  /** 'New AFO', 'recast': another than the one before. */
  readonly fresh: boolean;
  /** 'In attesa', 'not fitted yet': ordered; 'outgrown': retired. */
  readonly state: 'ordered' | 'retired' | null;
  /** 'AFO fitted', 'cast for KAFOs' without a day: what was done at the visit. */
  readonly stage: SaidDay['is'] | null;
  /** 'Then a TLSO': another than the one its cell names before it. */
  readonly after?: boolean;
}

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

/** Words that are a side alone ('AFO sin'), and 'the', 'of', 'without' between others. */
const EITHER = new Set(['de', 'des', 'der', 'sin', 'd', 'i', 'e', 'le']);

/** 'Repair GRAFO strap', 'KAFO L lengthened': work on a device that is worn, and no new one. */
export const MENDED: ReadonlySet<string> = spokenWords('mended');

/** Beside the days of one more of the same device: 'puis refait', 'second scan'. */
export const AGAIN: ReadonlySet<string> = spokenWords('again');
/** On the days of the one before: 'night splints same time'. */
export const SAME_DAYS = new RegExp(`(?:^|\\s)(?:${[...spokenWords('same-days')].join('|')})$`);
/** Not made to a cast: it says nothing of which device. */
export const STOCK = wordSet((v) => v.stock);
/** 'Scanned? no', 'no helmet', 'declined': words that take back what the others say. */
export const takesBack = (text: string): boolean =>
  text.includes('?') ||
  foldText(text)
    .split(' ')
    .some((word) => DENIES.has(word));
/** 'Igual', 'weaning, nights only': the device of before goes on, or how it is worn. */
export const UNCHANGED = wordSet((v) => v.unchanged);
/** Words for any device: 'brace' alone is the one that is worn. */
const GENERIC = spokenWords('generic');
export const isGeneric = (word: string): boolean => GENERIC.has(word);
/** What a device is made of, where it stands in a name: 'plaster jacket' is no cast. */
const MADE_OF = new Set(['plaster', 'platre', 'gips']);

/** Not yet there, in words around another: 'del pending', 'nog niet klaar', 'livraison à prévoir'. */
const PENDING =
  /\b(?:pending|awaiting|awaited|waiting|(?:not|noch nicht|nog niet|pas|todavia no|aun no|non)\b.*\b(?:yet|fitted|delivered|fertig|klaar|encore|listo|lista|entregado|ancora|pronto|pronta)|a prevoir|en attente|ausstehend|in attesa|da consegnare|te leveren|pendiente|to be fitted|tbf|noch nicht|nog niet|non ancora)\b/;

/** The days of a device; what is made to no cast, from stock or on the shoe, has one: it was given then. */
function daysFor(
  named: string,
  own: readonly SaidDay[],
): { readonly cast: string | null; readonly fitted: string | null } {
  const day = (is: SaidDay['is']) => own.find((d) => d.is === is)?.written ?? null;
  const given =
    own.length === 1 &&
    !own[0].told &&
    foldText(named)
      .split(' ')
      .some((word) => STOCK.has(word) || NAMES.get(word) === 'shoe-raise');
  return given ? { cast: null, fitted: own[0].written } : { cast: day('cast'), fitted: day('fitted') };
}

/** 'Dynamische Fußorthese (SMO)': the name in brackets is the one that is meant. */
function inBrackets(named: string): SpokenDevice | null {
  const [, before, name = ''] = /^([^()]+)\((\p{L}[^()]*)\)$/u.exec(named.trim()) ?? [];
  const meant = NAMES.get(foldText(name));
  if (before === undefined || meant === undefined || meant.includes('|')) return null;
  const { side, plural, fresh } = spoken(before, []);
  return { ...spoken(name, []), side, plural, fresh };
}

/** A piece of a marked cell as one device. */
export function spoken(text: string, days: readonly SaidDay[]): SpokenDevice {
  const named = withoutDays(text);
  const own = daysAt(text, days);
  const { cast, fitted } = daysFor(named, own);
  const bracketed = inBrackets(named);
  if (bracketed !== null) return { ...bracketed, cast, fitted };
  const all = foldText(named.replace(/['’]s\b/gi, 's').replace(/\(.*?\d{2,}.*?\)|\d+\/\d+/g, ' '))
    .replace(SAME_DAYS, '')
    .split(' ')
    .filter((w) => w !== '');
  const told = sideApart(all).rest;
  const again = own.length > 0 && told.length > 0 && told.every((word) => AGAIN.has(word));
  const { words, state } = again ? { words: all, state: null } : stateApart(all);
  const { side, rest } = sideApart(words);
  const word = rest.join(' ');
  const family =
    NAMES.get(word) ??
    JOINED.get(joined(word)) ??
    longestName(rest) ??
    qualified(rest) ??
    NAMES.get(words.join(' ')) ??
    null;
  const plural = PLURALS.has(word) || rest.some((w) => PLURALS.has(w));
  // 'AFO (new cast)' is asked about as 'AFO'.
  const bare = rest.filter((w) => !isIdle(w) && !AGAIN.has(w)).join(' ');
  const asked = (family === null ? isGeneric(bare) : NAMES.get(bare) === family) ? bare : word;
  const likely = family ?? (rest.some((w) => DENIES.has(w)) ? null : likeliest(rest));
  return {
    family,
    likely,
    side,
    plural,
    word: family === null && saysNoDevice(rest, own.length > 0) ? '' : asked,
    said: named.replace(/\s+/g, ' '),
    cast,
    fitted,
    fresh: rest.some((w) => FRESH.has(w)),
    state,
    stage: own.length > 0 || state !== null ? null : stageDone(named, rest),
  };
}

/** A day and month without a year. */
export const SHORT_DAY = /(?<![\d./-])\d{1,2}[./-]\s?\d{1,2}(?![\d/-]|\.\d)/;

/** What words without a day say was done; null where they take it back. */
function stageDone(named: string, words: readonly string[]): SaidDay['is'] | null {
  const done = words.filter((word, at) => !MADE_OF.has(word) || at === words.length - 1);
  // 'Gips 3.2.' has a day of its own, though nobody knows its year.
  return takesBack(named) || SHORT_DAY.test(named) ? null : stageSaid(done.join(' '));
}

/** 'HKAFO outgrown', 'in attesa', 'del pending': the state that words end in, or are all of, and the words before it. */
function stateApart(words: readonly string[]): { words: readonly string[]; state: SpokenDevice['state'] } {
  if (NAMES.has(words.join(' '))) return { words, state: null };
  for (let n = Math.min(4, words.length); n >= 1; n--) {
    const phrase = words.slice(-n).join(' ');
    const said = saysStage(phrase) && n === 1 ? null : wordIn(phrase, 'deviceStates');
    if (said === 'ordered' || said === 'retired') return { words: words.slice(0, -n), state: said };
    // 'Awaiting AFOs', 'AFO (waiting for funding)': of words that all say it the names are left.
    if (said === null && n === words.length && PENDING.test(phrase))
      return { words: words.filter((word) => NAMES.has(word)), state: 'ordered' };
  }
  return { words, state: null };
}

/** Words that name nothing: of a cast or a fitting, of stock, 'again', 'none'. */
function saysNoDevice(words: readonly string[], dated: boolean): boolean {
  const phrase = words.join(' ');
  if (
    phrase === '' ||
    STOCK.has(phrase) ||
    nothingWords.has(phrase) ||
    noWords.has(phrase) ||
    yesWords.has(phrase) ||
    wordIn(phrase, 'deviceStates') !== null
  )
    return true;
  return words.every(
    (word) =>
      STOCK.has(word) ||
      saysStage(word) ||
      UNCHANGED.has(word) ||
      (dated && (AGAIN.has(word) || BESIDE.has(word) || FRESH.has(word))),
  );
}

/** The side that words say, and the words that say none. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one case a word, a phrase before its words
function sideApart(words: readonly string[]): { side: DeviceSide | null; rest: string[] } {
  let side: DeviceSide | null = null;
  const rest: string[] = [];
  for (let at = 0; at < words.length; at++) {
    const two = words.slice(at, at + 2).join(' ');
    const three = words.slice(at, at + 3).join(' ');
    const known = NAMES.has(two) || (words.length === 1 && NAMES.has(words[at]));
    if (!known && bothWords.has(three) && three.includes(' ')) [side, at] = ['both', at + 2];
    else if (!known && bothWords.has(two) && two.includes(' ')) [side, at] = ['both', at + 1];
    else if (EITHER.has(words[at]) && at > 0 && at < words.length - 1) rest.push(words[at]);
    else if (bothWords.has(words[at])) side = 'both';
    else if (leftWords.has(words[at]) && !rightWords.has(words[at])) side = joinSides(side, 'left');
    else if (rightWords.has(words[at])) side = joinSides(side, 'right');
    else rest.push(words[at]);
  }
  return { side, rest };
}

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
  return [...families].sort((a, b) => shared(b) - shared(a));
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

export function joinSides(a: DeviceSide | null, b: DeviceSide | null): DeviceSide | null {
  if (a === null || b === null || a === b) return a ?? b;
  return 'both';
}
