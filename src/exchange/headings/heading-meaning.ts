import { type MeasureId, measures } from '../../records/measure.js';
import { unitNamed } from '../../records/units.js';
import { deviceSizeHeading } from '../csv/device-size-heading.js';
import { remembered } from '../remembered.js';
import { foldWords } from './fold-words.js';
import { type ColumnSide, type DeviceDay, deviceDays, type Meaning, meaningText } from './meaning.js';
import { nearestPhraseWord } from './nearest-phrase-word.js';
import {
  type Concept,
  compoundSenses,
  longestPhrase,
  type PhraseSense,
  phraseTable,
} from './phrase-table.js';
import { type DimensionId, type Language, languages, type PartId } from './vocabulary.js';

/** What a heading may mean, with how much of it says so (1 all of it). */
export interface Candidate {
  readonly meaning: Meaning;
  readonly strength: number;
  /** Words of the heading that nobody knows. */
  readonly unknownWords: number;
  readonly languages: readonly Language[];
}

/** The measure of a part of the body where the heading says which dimension, and the usual ones where it does not. */
const BY_PART: Readonly<Record<PartId, Partial<Record<DimensionId | 'alone', readonly string[]>>>> = {
  foot: { length: ['foot_length'], breadth: ['foot_breadth'], alone: ['foot_length'] },
  heel: { breadth: ['heel_breadth', 'heel_width'] },
  ankle: {
    height: ['ankle_height'],
    girth: ['ankle_girth'],
    breadth: ['malleolar_breadth', 'malleolar_width'],
    alone: ['ankle_girth', 'ankle_height', 'malleolar_breadth', 'malleolar_width'],
  },
  calf: { girth: ['calf_girth'], alone: ['calf_girth'] },
  knee: { height: ['knee_height'], girth: ['knee_girth'], alone: ['knee_height'] },
  fibula: { height: ['fibular_head_height'], alone: ['fibular_head_height'] },
  thigh: { girth: ['thigh_girth'], alone: ['thigh_girth'] },
  hip: { height: ['hip_height'], girth: ['hip_girth'], alone: ['hip_girth', 'hip_height'] },
  trochanter: { height: ['hip_height'], alone: ['hip_height'] },
  asis: { height: ['asis_height'], alone: ['asis_height'] },
  leg: { length: ['asis_malleolus_length', 'leg_length_asis', 'asis_ankle_length'] },
  trunk: { height: ['sitting_height'], length: ['sitting_height'] },
  pelvis: { breadth: ['pelvic_breadth'], girth: ['hip_girth'], alone: ['pelvic_breadth'] },
  waist: { girth: ['waist_girth'], alone: ['waist_girth'] },
  chest: { girth: ['chest_girth'], alone: ['chest_girth'] },
  axilla: { girth: ['axillary_girth', 'axilla_girth'], alone: ['axillary_girth', 'axilla_girth'] },
  head: {
    girth: ['head_circumference'],
    length: ['head_length'],
    breadth: ['head_breadth'],
    diagonal: ['head_diagonal'],
    alone: ['head_circumference'],
  },
};
const known = (id: string): id is MeasureId => Object.hasOwn(measures, id);

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

/** doorpost's own way to head a column of sizes: foot_length_left_cm. */
function ownMeasureHeading(heading: string): Candidate | null {
  const match = /^([a-z_]+?)(?:_(left|right))?(?:_(mm|cm|m|in|inch|ft|kg|g|lb))?$/.exec(
    heading.toLowerCase(),
  );
  if (!match || !known(match[1]) || (!heading.includes('_') && !measures[match[1]])) return null;
  const [, measure, side, unit] = match;
  const sided = measures[measure as MeasureId].sided;
  return {
    meaning: {
      kind: 'reading',
      measure: measure as MeasureId,
      side: sided ? ((side as ColumnSide | undefined) ?? 'row') : 'none',
      unit: unitNamed(unit ?? ''),
      at: null,
    },
    strength: 1,
    unknownWords: 0,
    languages,
  };
}

/** 'OT comments', 'Skin (L/R)': one word of remarks beside others that are no field and no measure. */
function remarkOf(words: readonly string[]): Candidate[] {
  const is = (list: 'remarks' | 'skin') =>
    words.some((word) => phraseTable.get(word)?.some(({ concept }) => concept.is === list));
  if (!is('skin') && !is('remarks')) return [];
  const of = is('skin') ? 'skin' : 'visit';
  return [{ meaning: { kind: 'remark', of }, strength: 0.9, unknownWords: 0, languages }];
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

function candidatesOf(heading: string): Candidate[] {
  const trimmed = heading.trim();
  if (trimmed.startsWith('extra:'))
    return [{ meaning: { kind: 'keep' }, strength: 1, unknownWords: 0, languages }];
  if (deviceSizeHeading(trimmed))
    return [{ meaning: { kind: 'device-size', heading: trimmed }, strength: 1, unknownWords: 0, languages }];
  const own = ownMeasureHeading(trimmed);
  if (own) return [own];
  const words = foldWords(trimmed.replace(/\b\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}\b/g, ' ')).flatMap((word) =>
    Object.hasOwn(SHORT, word) ? SHORT[word].split(' ') : [word],
  );
  const best = new Map<string, Candidate>();
  for (const segments of segmentations(words)) {
    const total = segments.reduce((n, s) => n + s.words, 0);
    for (const chosen of choices(segments)) {
      const spoken = interpret(chosen.map(({ sense }) => sense.concept));
      if (spoken.length === 0) continue;
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
      for (const { meaning, weight } of spoken) {
        const key = meaningText(meaning);
        const before = best.get(key);
        if (!before || before.strength < strength * weight)
          best.set(key, { meaning, strength: strength * weight, unknownWords, languages: common });
      }
    }
  }
  const found = [...best.values()].filter((c) => c.strength >= 0.45).sort((a, b) => b.strength - a.strength);
  return found.length > 0 ? found : remarkOf(words);
}

/** The heading cut into known phrases, longest first; a second cut without its longest phrase where that helps. */
function segmentations(words: readonly string[]): Segment[][] {
  const cut = (longest: number): Segment[] => {
    const segments: Segment[] = [];
    for (let at = 0; at < words.length; ) {
      const segment = segmentAt(words, at, longest);
      segments.push(segment);
      at += segment.words;
    }
    return segments;
  };
  const whole = cut(longestPhrase);
  return words.length > 1 ? [whole, cut(2), cut(1)] : [whole];
}

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
      const ids = (BY_PART[part.part][dimension.dimension] ?? []).filter(known);
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

/** What a heading of these concepts means: at most a few meanings, weighed where more is guessed. */
function interpret(concepts: readonly Concept[]): { meaning: Meaning; weight: number }[] {
  const has = (is: Concept['is']) => concepts.some((c) => c.is === is);
  const only = <T extends Concept['is']>(is: T) =>
    concepts.filter((c): c is Extract<Concept, { is: T }> => c.is === is);
  const fields = [...new Set(only('field').map((c) => c.field))];
  const bodily = has('measure') || has('part') || has('dimension');
  const side = columnSide(concepts);
  const oneSide = side === 'left' || side === 'right' || side === 'both' ? side : null;
  const family = only('device')[0]?.family ?? null;
  const field = (id: (typeof fields)[number], weight = 1) => [
    { meaning: { kind: 'field', field: id, side: oneSide, family } as Meaning, weight },
  ];
  if (has('skin') || has('remarks')) {
    const of = has('skin') ? 'skin' : 'visit';
    return fields.length === 0 && !bodily ? [{ meaning: { kind: 'remark', of }, weight: 1 }] : [];
  }
  // 'Age (months)' is an age; 'Wear (months)' is nothing that is read.
  if (
    has('age-unit') &&
    !has('age') &&
    !/^(?:visit\.age|marker\.bone_age|child\.gestation_weeks)$/.test(fields[0] ?? '')
  )
    return [];
  if (has('kept')) return fields.length === 0 && !bodily ? [{ meaning: { kind: 'keep' }, weight: 1 }] : [];
  if (fields.length === 1 && !bodily) {
    const [id] = fields;
    // 'Scan id', 'Visit no' number what they name.
    if (has('number') && /(?:_date|\.date)$/.test(id)) return [{ meaning: { kind: 'keep' }, weight: 0.9 }];
    if (id.startsWith('device.') || id === 'side' || id === 'shoe.size' || id === 'long.value') {
      return field(id);
    }
    if (oneSide || has('device')) return id === 'child.affected_side' ? field(id, 0.9) : [];
    if (has('unit') && !id.startsWith('child.g')) return [];
    return field(id);
  }
  if (fields.length === 2 && !bodily && !has('device')) {
    const [a, b] = [...fields].sort();
    // 'Date cast', 'Cast fitted date': a stage beside the visit's own word is the stage.
    if (a.startsWith('device.') && b.startsWith('visit.')) return field(a, 0.85);
    // 'Brace given', 'Orthosis status': what is said of the device.
    if (fields.includes('device.family') && b.startsWith('device.'))
      return field(a === 'device.family' ? b : a, 0.95);
    return [];
  }
  if (bodily && fields.length <= 1) {
    // 'Foot length before': of a day that nobody can tell.
    if (has('other-time')) return [{ meaning: { kind: 'keep' }, weight: 0.8 }];
    const at = deviceDayOf(fields[0]);
    if (at !== undefined) return readings(concepts, side, at);
  }
  if (fields.length > 0) return [];
  if (has('device')) {
    if (has('unit') || has('name')) return [];
    return [
      {
        meaning: { kind: 'device', family: family ?? '', side: oneSide } as Meaning,
        weight: has('date') ? 1 : 0.95,
      },
    ];
  }
  if (has('person')) {
    if (has('today')) return [{ meaning: { kind: 'keep' }, weight: 0.9 }];
    if (has('age')) return field('visit.age', 0.9);
    if (has('name')) return field('child.name');
    if (has('number')) return field('child.id');
    return [...field('child.name', 0.92), ...field('child.id', 0.9)];
  }
  if (has('name')) return field('child.name', 0.98);
  if (has('age')) return has('today') ? [{ meaning: { kind: 'keep' }, weight: 1 }] : field('visit.age', 0.8);
  if (has('date')) return oneSide ? [] : field('visit.date', 0.9);
  // 'mm' alone over a column, beside one that says what was measured.
  if (has('unit') && concepts.every((c) => c.is === 'unit' || c.is === 'noise'))
    return field('long.value', 0.6);
  if (has('today')) return [];
  if (has('side') && !has('unit') && !has('number') && !has('digits'))
    return oneSide && oneSide !== 'both' ? [] : field('side', 0.9);
  // 'L/R 2' is a size of something; '2' alone a running number.
  if ((has('number') || has('digits')) && !has('side'))
    return [{ meaning: { kind: 'keep' }, weight: 0.7 }, ...field('child.id', 0.6)];
  return [];
}

/** Which day a field beside a measure says it was taken on; undefined where it says something else. */
const deviceDayOf = (field: string | undefined): DeviceDay | null | undefined =>
  field === undefined || field === 'visit.date'
    ? null
    : (Object.keys(deviceDays) as DeviceDay[]).find((day) => deviceDays[day] === field);

function readings(
  concepts: readonly Concept[],
  side: ColumnSide | null,
  at: DeviceDay | null,
): { meaning: Meaning; weight: number }[] {
  if (concepts.some((c) => c.is === 'device' || c.is === 'person' || c.is === 'name')) return [];
  const pick = <T extends Concept['is']>(is: T) =>
    concepts.filter((c): c is Extract<Concept, { is: T }> => c.is === is);
  const ids = new Set(pick('measure').map((c) => c.measure));
  const parts = new Set(pick('part').map((c) => c.part));
  const dimensions = new Set(pick('dimension').map((c) => c.dimension));
  const units = [...new Set(pick('unit').map((c) => c.unit))];
  if (units.length > 1 || ids.size > 1 || parts.size > 1 || dimensions.size > 1) return [];
  const unit = units.length === 1 ? unitNamed(units[0]) : null;
  const made = (measure: MeasureId, weight: number) => ({
    meaning: {
      kind: 'reading',
      measure,
      side: measures[measure].sided ? (side ?? 'row') : 'none',
      unit,
      at,
    } as Meaning,
    // A word that also says nothing ('from') says nothing here.
    weight: (side !== null && !measures[measure].sided ? 0.6 : 1) * (at === null ? 1 : 0.93) * weight,
  });
  if (ids.size === 1) return parts.size === 0 && dimensions.size === 0 ? [made([...ids][0], 1)] : [];
  // 'Length (cm)' with no part of the body is the child's, if its values can be.
  if (parts.size === 0)
    return dimensions.has('length') && side === null && unit !== 'mm' ? [made('stature', 0.75)] : [];
  const [part] = parts;
  const [dimension] = dimensions;
  const by = BY_PART[part][dimension ?? 'alone'] ?? [];
  return by.filter(known).map((measure, at) => made(measure, dimension ? 1 : 0.96 - at * 0.02));
}

function columnSide(concepts: readonly Concept[]): ColumnSide | null {
  const sides = concepts.flatMap((c) => (c.is === 'side' ? [c.side] : []));
  const [a, b] = sides;
  if (a === undefined) return null;
  if (b === undefined || a === b) return a;
  if (a === 'left' && b === 'right') return 'left-right';
  if (a === 'right' && b === 'left') return 'right-left';
  return null;
}
