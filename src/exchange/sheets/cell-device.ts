import { foldText, phrasesOf } from '../headings/fold-words.js';
import { wordSet } from '../headings/phrase-table.js';
import { deviceQualifiers, openDevices, spokenDevices } from '../headings/spoken-devices.js';
import { writtenDates } from '../headings/written-date.js';
import { remembered } from '../remembered.js';
import { deviceDates } from './cell-device-dates.js';
import { bothWords, leftWords, rightWords } from './cell-words.js';

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
  /** Days the cell itself gives, as written. */
  readonly cast: string | null;
  readonly fitted: string | null;
  /** 'New AFO', 'recast': another than the one before. */
  readonly fresh: boolean;
}

const NAMES = new Map<string, string>();
for (const [family, list] of Object.entries(spokenDevices))
  for (const phrase of phrasesOf(`${list}|${family}`)) NAMES.set(phrase, family);
for (const [families, { words }] of Object.entries(openDevices))
  for (const phrase of phrasesOf(words)) NAMES.set(phrase, families);
const QUALIFIERS = new Map(
  Object.entries(deviceQualifiers).flatMap(([family, list]) =>
    phrasesOf(list).map((word) => [word, family] as const),
  ),
);
const KNEE = wordSet((v) => v.parts.knee ?? '');
/** Ordinary and orthopaedic footwear: no orthosis, named beside one. */
const FOOTWEAR = wordSet((v) => v.footwear);
const PLURALS = new Set(
  phrasesOf(
    'afos|smos|fos|kafos|insoles|orthotics|foot orthoses|dafos|grafos|afo s|einlagen|semelles|plantillas|steunzolen|zolen|plantari|unterschenkelorthesen|attelles|evos|evo s|hinged afos|solid afos|tutori|splints|night splints|inserts|nachtschienen|schuheinlagen|knee splints|gaiters|ankle foot orthoses',
  ),
);
/** 'Orthesen', 'férulas nocturnas', 'tutori notturni': several of a name, by the endings of the six languages. */
function pluralsOf(phrase: string): string[] {
  const words = phrase.split(' ');
  const every = (end: RegExp, plural: string) =>
    words.map((word) => (word.length > 2 ? word.replace(end, plural) : word)).join(' ');
  const [first, ...rest] = words;
  const forms = [`${phrase}s`, every(/([^s])$/, '$1s'), [`${first}s`, ...rest].join(' ')];
  return [...forms, every(/e$/, 'en'), every(/[oe]$/, 'i'), every(/a$/, 'e')].filter(
    (form) => form !== phrase,
  );
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
    if (NAMES.has(form)) continue;
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
/** Words for a device that is another than the one before. */
const FRESH = new Set(
  phrasesOf(
    'new|replacement|recast|neu|neue|neuen|neuer|neues|nouveau|nouvel|nouvelle|nouvelles|nouveaux|nuevo|nueva|nuevos|nuevas|nieuw|nieuwe|nuovo|nuova|nuovi|nuove|ersatz|remplacement|recambio|vervanging|ricambio',
  ),
);
/** Words beside a device's name that change nothing of its family. */
const BESIDE = new Set(
  phrasesOf(
    'today|heute|hoy|vandaag|oggi|old|custom|spare|pair|mm|cm|inch|of|with|and|carbon|bespoke|the|his|her|alt|alte|alten|vieux|vieille|viejo|vieja|viejas|oud|oude|vecchio|vecchi|paar|x|second|2nd|first|1st|pp|copolymer|plastic|leather|night|day|worn|current|nacht|tag|de|del|di|mit|avec|con|met|sur mesure|a medida|su misura|op maat|nach maß|maß|orthosis|orthese|ortesis|ortesi|brace|soft|hard|full length|rigid|standard|cast|casting|re cast|casted|fitted|fitting|supplied|delivered|ordered|made|issued|in use|gips|abdruck|angepasst|geliefert|bestellt|moulage|livre|livree|moldeado|entregado|entregada|geleverd|gemaakt|besteld|calco|consegnato|consegnata',
  ),
);

/** Words that take a device's name back: 'no AFO', 'Korsett abgelehnt'. */
const DENIES = new Set(
  phrasesOf(
    'no|not|none|without|declined|refused|stopped|discontinued|discussed|consider|considered|planned|awaiting|needs|need|kein|keine|nicht|ohne|abgelehnt|geplant|pas|sans|refus|refuse|prevu|sin|no quiere|rechaza|previsto|geen|zonder|niet|geweigerd|gepland|senza|non|rifiuta|rifiutato',
  ),
);

/** Words that are a side alone ('AFO sin'), and 'the', 'of', 'without' between others. */
const EITHER = new Set(['de', 'des', 'der', 'sin', 'd', 'i', 'e', 'le']);

/** The devices a cell names: 'L solid AFO + R insole' is two, 'bilat hinged AFOs' one on both sides. */
export const cellDevices = remembered((cell): readonly SpokenDevice[] => devicesOf(cell));

const NOBODY_KNOWS = { family: null, likely: null, side: null, plural: false, cast: null, fitted: null };

function devicesOf(cell: string): SpokenDevice[] {
  if (cell.length > 300) return [{ ...NOBODY_KNOWS, word: foldText(cell.slice(0, 60)), fresh: false }];
  const whole = spoken(cell);
  if (whole.family !== null) return [whole];
  if (FOOTWEAR.has(whole.word)) return [];
  // A day is no list: 'cast 12/01/26'.
  const parts = [...writtenDates(cell)]
    .reduce((text, [day]) => text.replace(day, day.replaceAll('/', '-')), cell)
    .split(/[+,;/\n&]|\s(?:and|und|et|y|e|en|plus)\s/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  if (parts.length < 2) return [whole];
  const devices = parts.map(spoken).filter(({ word }) => !FOOTWEAR.has(word));
  const merged = withSidesMerged(devices);
  return merged.every((d) => d.family !== null) || merged.some((d) => d.family !== null) ? merged : [whole];
}

/** 'AFO L + R', 'L/R AFO': a part that is only a side belongs to the device beside it. */
function withSidesMerged(devices: readonly SpokenDevice[]): SpokenDevice[] {
  const merged: SpokenDevice[] = [];
  let waiting: DeviceSide | null = null;
  for (const device of devices) {
    const last = merged[merged.length - 1];
    if (device.word === '' && device.side === null) {
      if (last)
        merged[merged.length - 1] = {
          ...last,
          cast: last.cast ?? device.cast,
          fitted: last.fitted ?? device.fitted,
        };
      continue;
    }
    if (device.word !== '' || device.side === null) {
      merged.push({ ...device, side: joinSides(waiting, device.side) });
      waiting = null;
    } else if (last) merged[merged.length - 1] = { ...last, side: joinSides(last.side, device.side) };
    else waiting = joinSides(waiting, device.side);
  }
  return merged;
}

function joinSides(a: DeviceSide | null, b: DeviceSide | null): DeviceSide | null {
  if (a === null || b === null || a === b) return a ?? b;
  return 'both';
}

function spoken(text: string): SpokenDevice {
  const { rest: named, cast, fitted } = deviceDates(text);
  // 'dynamische Fußorthese (SMO)': the name in brackets is the one that is meant.
  const inside = /^([^()]+)\((\p{L}[^()]*)\)$/u.exec(named.trim());
  const meant = inside === null ? undefined : NAMES.get(foldText(inside[2]));
  if (inside !== null && meant !== undefined && !meant.includes('|') && spoken(inside[1]).family === null) {
    const { side, plural, fresh } = spoken(inside[1]);
    return { ...spoken(inside[2]), side, plural, fresh, cast, fitted };
  }
  const words = foldText(named.replace(/['’]s\b/gi, 's').replace(/\(.*?\d{2,}.*?\)/g, ' '))
    .split(' ')
    .filter((w) => w !== '');
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
  const bare = rest.filter((w) => !BESIDE.has(w) && !FRESH.has(w)).join(' ');
  const asked = family !== null && NAMES.get(bare) === family ? bare : word;
  const likely = family ?? (rest.some((w) => DENIES.has(w)) ? null : likeliest(rest));
  return { family, likely, side, plural, word: asked, cast, fitted, fresh: rest.some((w) => FRESH.has(w)) };
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

/** 'AFO with hinges', 'US-Orthese mit Gelenk': a name that leaves the family open, and a word that says it. */
function qualified(words: readonly string[]): string | null {
  for (let n = words.length - 1; n >= 1; n--) {
    for (let at = 0; at + n <= words.length; at++) {
      const families = NAMES.get(words.slice(at, at + n).join(' '));
      if (families === undefined || !families.includes('|')) continue;
      const left = [...words.slice(0, at), ...words.slice(at + n)].filter(
        // 'm. Gelenk', 'c/ snodo': a letter or two before the word that says it.
        (word) => QUALIFIERS.has(word) || (!BESIDE.has(word) && !FRESH.has(word) && word.length > 2),
      );
      const said = new Set(left.map((word) => QUALIFIERS.get(word)));
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
  if (name === null || name.includes('|')) return null;
  // 'Resting splint, wrist and hand' says two of them.
  const said = words.flatMap((_, at) =>
    [1, 2, 3]
      .map((n) => NAMES.get(words.slice(at, at + n).join(' ')))
      .filter((family) => family !== undefined),
  );
  return said.every((family) => family.split('|').includes(name)) ? name : null;
}

/** The longest known name inside the words, where what is left over says nothing of the family. */
function longestName(words: readonly string[], whateverElse = false): string | null {
  for (let n = words.length - 1; n >= 1; n--) {
    for (let at = 0; at + n <= words.length; at++) {
      const family = NAMES.get(words.slice(at, at + n).join(' '));
      if (family === undefined) continue;
      const left = [...words.slice(0, at), ...words.slice(at + n)];
      // A rigid corset is a corset, a KAFO with a knee joint a KAFO; of an AFO the kind is the family.
      const idle = (word: string) => BESIDE.has(word) || FRESH.has(word) || /^\d+$/.test(word);
      const told = (word: string) =>
        (QUALIFIERS.get(word) === 'solid-afo' && !family.includes('|') && !(family in deviceQualifiers)) ||
        (family === 'kafo' && (KNEE.has(word) || QUALIFIERS.get(word) === 'articulated-afo'));
      if (whateverElse || left.every((word) => idle(word) || told(word))) return family;
    }
  }
  return null;
}
