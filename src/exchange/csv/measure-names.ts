import { type MeasureId, measureIds, type Side } from '../../records/measure.js';
import { ownValue } from '../own-value.js';
import { plainWord } from './columns.js';

/** Other words for a measure that clinics' headings use. */
const MEASURE_WORDS: Readonly<Record<string, MeasureId>> = {
  height: 'stature',
  body_height: 'stature',
  standing_height: 'stature',
  foot_width: 'foot_breadth',
  knee_joint_height: 'knee_height',
  tibiale_height: 'knee_height',
  sphyrion_height: 'ankle_height',
  hip_joint_height: 'hip_height',
  trochanterion_height: 'hip_height',
  subischial_leg_length: 'leg_length',
  asis_to_malleolus: 'asis_malleolus_length',
  asis_malleolus: 'asis_malleolus_length',
  true_leg_length: 'asis_malleolus_length',
  leg_length_tape: 'asis_malleolus_length',
  ankle_width: 'malleolar_width',
  chest_circumference: 'chest_girth',
  ankle_circumference: 'ankle_girth',
  calf_circumference: 'calf_girth',
  thigh_circumference: 'thigh_girth',
  hip_circumference: 'hip_girth',
  waist_circumference: 'waist_girth',
  pelvic_width: 'pelvic_breadth',
  head_girth: 'head_circumference',
  hc: 'head_circumference',
  ofc: 'head_circumference',
  body_weight: 'weight',
};
const SIDE_WORDS: Readonly<Record<string, Side>> = { left: 'left', right: 'right', l: 'left', r: 'right' };
const UNIT_WORDS = ['mm', 'cm', 'm', 'in', 'inch', 'inches', 'ft', 'kg', 'g', 'lb', 'lbs'];

export function measureNamed(text: string): MeasureId | null {
  const word = plainWord(text);
  return measureIds.find((id) => id === word) ?? ownValue(MEASURE_WORDS, word) ?? null;
}

export interface MeasureHeading {
  readonly measure: MeasureId;
  readonly side: Side | null;
  readonly unit: string | null;
}

/** 'Foot length left (cm)' -> foot_length, left, cm; null for a heading that names no measure. */
export function measureHeading(heading: string): MeasureHeading | null {
  let words = plainWord(heading).split('_');
  let side: Side | null = null;
  let unit: string | null = null;
  for (;;) {
    const measure = measureNamed(words.join('_'));
    if (measure) return { measure, side, unit };
    const [first, last] = [words[0], words[words.length - 1]];
    if (unit === null && UNIT_WORDS.includes(last)) [unit, words] = [last, words.slice(0, -1)];
    else if (side === null && ownValue(SIDE_WORDS, last))
      [side, words] = [SIDE_WORDS[last], words.slice(0, -1)];
    else if (side === null && ownValue(SIDE_WORDS, first))
      [side, words] = [SIDE_WORDS[first], words.slice(1)];
    else return null;
  }
}
