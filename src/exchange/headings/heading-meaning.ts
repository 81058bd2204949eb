import { measures } from '../../records/measure.js';
import { unitNamed } from '../../records/units.js';
import { deviceSizeHeading } from '../csv/device-size-heading.js';
import { measureHeading } from '../csv/measure-names.js';
import { remembered } from '../remembered.js';
import { measuresOf } from './by-part.js';
import { withoutDateHint } from './date-format-hint.js';
import { foldWords } from './fold-words.js';
import { interpret } from './interpret-concepts.js';
import { type Meaning, meaningText } from './meaning.js';
import { nearestPhraseWord } from './nearest-phrase-word.js';
import {
  type Concept,
  compoundSenses,
  longestPhrase,
  type PhraseSense,
  phraseTable,
} from './phrase-table.js';
import { type FieldId, type Language, languages } from './vocabulary.js';
import { headingDay } from './written-age.js';

/** What a heading may mean, with how much of it says so (1 all of it). */
export interface Candidate {
  readonly meaning: Meaning;
  readonly strength: number;
  /** Words of the heading that nobody knows. */
  readonly unknownWords: number;
  readonly languages: readonly Language[];
}

/** Letters that stand for a side and a part in one. */
const SHORT: Readonly<Record<string, string>> = {
  lf: 'left foot',
  rf: 'right foot',
  lfl: 'left foot length',
  rfl: 'right foot length',
  fll: 'foot length left',
  flr: 'foot length right',
  lcg: 'left calf girth',
  rcg: 'right calf girth',
  cgl: 'calf girth left',
  cgr: 'calf girth right',
};

/** A diagonal of the head by its two ends, 'RF-LB' and 'left front to right back': the side is where it starts in front. */
const DIAGONALS = [
  [/\b(?:rf|(?:right|r) front(?:al)?)\s*(?:-|–|\/|to)\s*(?:lb|(?:left|l) back)\b/i, ' diagonal right '],
  [/\b(?:lf|(?:left|l) front(?:al)?)\s*(?:-|–|\/|to)\s*(?:rb|(?:right|r) back)\b/i, ' diagonal left '],
] as const;
const endsAsSide = (heading: string): string => {
  const said = DIAGONALS.reduce((text, [ends, side]) => text.replace(ends, side), heading);
  // Of 'Diag B (RF-LB)' the rest says no more.
  return said === heading ? heading : said.replace(/(?<!\p{L})diag\.?\s*[AB12]?(?!\p{L})/iu, ' ');
};

/** 'V1 Foot L', 'T2: foot length', '2e visite': which visit of a row's several. */
const VISIT_NUMBER = /^[vtukmbrc]\s?\d{1,2}[\s:._-]+(?=\p{L})/iu;
const VISIT_ORDINAL = /^\d{1,2}(?:re|ère|er|e|ème|st|nd|rd|th|ª|º|\.)\s+(?=\p{L})/iu;

/** doorpost's own way to head a column of sizes: foot_length_left_cm. */
function ownMeasureHeading(heading: string): Candidate | null {
  const named = /^[a-z_]+$/i.test(heading) ? measureHeading(heading) : null;
  if (named === null || !heading.toLowerCase().startsWith(named.measure)) return null;
  const { measure, side, unit } = named;
  return {
    meaning: {
      kind: 'reading',
      measure,
      side: measures[measure].sided ? (side ?? 'row') : 'none',
      unit: unitNamed(unit ?? ''),
      at: null,
    },
    strength: 1,
    unknownWords: 0,
    languages,
  };
}

/** One word that settles a heading of others nobody knows: 'OT comments', 'Skin (L/R)', 'Wear (hours)', which is no size. */
function byOneWord(words: readonly string[]): Candidate[] {
  const is = (list: Concept['is']) =>
    words.some((word) => phraseTable.get(word)?.some(({ concept }) => concept.is === list));
  const made = (meaning: Meaning): Candidate[] => [{ meaning, strength: 0.9, unknownWords: 0, languages }];
  if (is('skin')) return made({ kind: 'remark', of: 'skin' });
  if (is('remarks')) return made({ kind: 'remark', of: 'visit' });
  // 'Cobb thoracic', 'CVA first'.
  const beside = (word: string) =>
    (phraseTable.get(word) ?? []).every(({ concept }) =>
      /^(?:kept|unit|side|noise|number|first-visit|other-time)$/.test(concept.is),
    );
  if (words.length > 1 && is('kept') && words.every(beside)) return made({ kind: 'keep' });
  return words.length > 1 && is('age-unit') && !is('age') ? made({ kind: 'keep' }) : [];
}

interface Segment {
  readonly words: number;
  readonly senses: readonly PhraseSense[];
  /** Below 1 where the word was only near one of the vocabulary. */
  readonly certainty: number;
}

/** What a heading may mean, best first; none where none of it is known. */
export const headingCandidates = remembered((heading): readonly Candidate[] =>
  heading.length > 120 ? [] : candidatesOf(heading),
);

/** What a heading most likely means; null where nobody knows it. */
export const likeliestMeaning = (heading: string): Meaning | null =>
  headingCandidates(heading)[0]?.meaning ?? null;

/** How much of a heading says what it means, 0 where none of it does. */
export const headingStrength = (heading: string): number => headingCandidates(heading)[0]?.strength ?? 0;

/** The field a heading most likely names, where at least so much of it says so; '' for none. */
export function fieldHeaded(heading: string, least = 0): FieldId | '' {
  const meaning = likeliestMeaning(heading);
  return meaning?.kind === 'field' && headingStrength(heading) >= least ? meaning.field : '';
}

function candidatesOf(heading: string): Candidate[] {
  const trimmed = heading.trim();
  if (trimmed.startsWith('extra:'))
    return [{ meaning: { kind: 'keep' }, strength: 1, unknownWords: 0, languages }];
  if (deviceSizeHeading(trimmed))
    return [{ meaning: { kind: 'device-size', heading: trimmed }, strength: 1, unknownWords: 0, languages }];
  const own = ownMeasureHeading(trimmed);
  if (own) return [own];
  const day = headingDay(trimmed);
  const words = foldWords(
    withoutDateHint(endsAsSide(trimmed))
      .replace(VISIT_NUMBER, '')
      // '3rd March 2021' is a day.
      .replace(day ?? VISIT_ORDINAL, ' '),
  ).flatMap((word) => (Object.hasOwn(SHORT, word) ? SHORT[word].split(' ') : [word]));
  const found = [...strongestOf(words).values()]
    .filter((c) => c.strength >= 0.45)
    .sort((a, b) => b.strength - a.strength);
  // 'Review due' is a plan, not a review and a word beside it.
  if (words.length > 1 && found[0]?.meaning.kind === 'keep' && found[0].strength === 1)
    return found.filter((c) => c.strength === 1);
  return found.length > 0 ? found : byOneWord(words);
}

/** Over every way to read the words the strongest candidate for each meaning. */
function strongestOf(words: readonly string[]): Map<string, Candidate> {
  const best = new Map<string, Candidate>();
  for (const segments of segmentations(words)) {
    const total = segments.reduce((n, s) => n + s.words, 0);
    for (const candidate of choices(segments).flatMap((chosen) => candidatesFrom(chosen, total))) {
      const key = meaningText(candidate.meaning);
      const before = best.get(key);
      if (!before || before.strength < candidate.strength) best.set(key, candidate);
    }
  }
  return best;
}

/** What phrases in their chosen senses mean together: the weaker, the more of the `total` words are left over. */
function candidatesFrom(chosen: readonly Chosen[], total: number): Candidate[] {
  const spoken = interpret(chosen.map(({ sense }) => sense.concept));
  if (spoken.length === 0) return [];
  const sure = chosen.reduce(
    (p, { certainty, sense }) => p * certainty * (sense.concept.is === 'noise' ? 0.98 : 1),
    1,
  );
  const shared = chosen
    .filter(({ sense }) => sense.concept.is !== 'unit' && sense.concept.is !== 'noise')
    .map(({ sense }) => sense.languages);
  const common = languages.filter((l) => shared.every((of) => of.includes(l)));
  const spokenFor = chosen.reduce((n, c) => n + c.words, 0);
  const unknownWords = total - spokenFor;
  const strength = (spokenFor / Math.max(1, total)) * sure * (common.length > 0 ? 1 : 0.85);
  return spoken.map(({ meaning, weight }) => ({
    meaning,
    strength: strength * weight,
    unknownWords,
    languages: common,
  }));
}

/** The heading cut into known phrases, longest first; other cuts without its longest phrase, and with 'L/R' as two sides. */
function segmentations(words: readonly string[]): Segment[][] {
  const cut = (longest: number, sidesApart = false): Segment[] => {
    const segments: Segment[] = [];
    for (let at = 0; at < words.length; ) {
      const segment = segmentAt(words, at, sidesApart && isSide(words[at]) ? 1 : longest);
      segments.push(segment);
      at += segment.words;
    }
    return segments;
  };
  const whole = cut(longestPhrase);
  return words.length > 1 ? [whole, cut(longestPhrase, true), cut(2), cut(1)] : [whole];
}

const isSide = (word: string): boolean =>
  phraseTable.get(word)?.some(({ concept }) => concept.is === 'side') ?? false;

function segmentAt(words: readonly string[], at: number, longest: number): Segment {
  for (let n = Math.min(longest, words.length - at); n >= 1; n--) {
    const senses = phraseTable.get(words.slice(at, at + n).join(' '));
    if (senses) return { words: n, senses, certainty: 1 };
  }
  const word = words[at];
  const compound = compoundSenses(word);
  if (compound) {
    const [part, dimension] = compound.map((s) => s.concept);
    if (part.is === 'part' && dimension.is === 'dimension') {
      const ids = measuresOf(part.part, dimension.dimension);
      if (ids.length > 0)
        return {
          words: 1,
          senses: ids.map((measure) => ({
            concept: { is: 'measure', measure },
            languages: compound[0].languages,
          })),
          certainty: 1,
        };
    }
  }
  if (/^\d+$/.test(word))
    return { words: 1, senses: [{ concept: { is: 'digits' }, languages }], certainty: 0.97 };
  const near = nearestPhraseWord(word);
  if (near) return { words: 1, senses: phraseTable.get(near) ?? [], certainty: 0.8 };
  return { words: 1, senses: [], certainty: 1 };
}

interface Chosen {
  readonly sense: PhraseSense;
  readonly certainty: number;
  readonly words: number;
}

/** Every way to take each phrase in one of its senses, up to a few hundred. */
function choices(segments: readonly Segment[]): Chosen[][] {
  let ways: Chosen[][] = [[]];
  for (const { senses, certainty, words } of segments) {
    if (senses.length === 0) continue;
    const next = ways.flatMap((way) => senses.map((sense) => [...way, { sense, certainty, words }]));
    ways = next.length > 400 ? next.slice(0, 400) : next;
  }
  return ways;
}
