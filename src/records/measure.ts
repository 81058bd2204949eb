import { z } from 'zod';

/** Every dimension doorpost knows. Lengths and girths in mm, weight in kg. */
export const measureIds = [
  'foot_length',
  'foot_breadth',
  'heel_width',
  'malleolar_width',
  'ankle_height',
  'knee_height',
  'fibular_head_height',
  'hip_height',
  'asis_height',
  'leg_length',
  'asis_malleolus_length',
  'sitting_height',
  'stature',
  'ankle_girth',
  'calf_girth',
  'thigh_girth',
  'hip_girth',
  'waist_girth',
  'chest_girth',
  'axillary_girth',
  'pelvic_breadth',
  'head_circumference',
  'head_breadth',
  'head_length',
  'head_diagonal',
  'hand_length',
  'hand_breadth',
  'forearm_length',
  'forearm_girth',
  'shoe_length',
  'weight',
] as const;
export const measureId = z.enum(measureIds);
export type MeasureId = z.infer<typeof measureId>;

export const sides = ['left', 'right', 'none'] as const;
export const side = z.enum(sides);
/** 'none' for a measure of the whole body (stature, sitting height, head circumference ...). */
export type Side = z.infer<typeof side>;

export interface Measure {
  readonly id: MeasureId;
  /** What a clinician calls it; sentence case. */
  readonly label: string;
  /** What a parent would call it. */
  readonly plainLabel: string;
  readonly unit: 'mm' | 'kg';
  readonly sided: boolean;
  readonly landmark: string;
  /** Technical error of measurement (one SD of a single reading), in `unit`; common practice unless stated. */
  readonly technicalError: number;
  /** Values outside are refused as impossible, in `unit`. */
  readonly plausible: readonly [min: number, max: number];
  /** A skeletal length cannot shrink beyond technical error; a girth or weight can. */
  readonly skeletal: boolean;
}

/** Anatomical landmarks and instrument. */
const landmarks: Readonly<Record<MeasureId, string>> = {
  foot_length: 'heel (pternion) to longest toe, parallel to the foot axis; foot gauge',
  foot_breadth: 'metatarsale tibiale to metatarsale fibulare; calliper',
  heel_width: 'greatest breadth of the heel, standing; calliper',
  malleolar_width: 'between the tips of the medial and lateral malleolus; calliper',
  ankle_height: 'sole to sphyrion tibiale (distal tip of the medial malleolus)',
  knee_height: 'sole to tibiale (medial edge of the tibial plateau), standing',
  fibular_head_height: 'sole to the tip of the fibular head, standing',
  hip_height: 'sole to trochanterion (top of the greater trochanter), standing',
  asis_height: 'sole to anterior superior iliac spine, standing',
  leg_length: 'stature less sitting height',
  asis_malleolus_length: 'anterior superior iliac spine to the tip of the medial malleolus, lying; tape',
  sitting_height: 'vertex to seat; box and stadiometer',
  stature: 'vertex to floor; stadiometer (lying length under 2 years)',
  ankle_girth: 'least girth above the malleoli; light tape',
  calf_girth: 'greatest girth of the calf; light tape',
  thigh_girth: 'upper thigh below the gluteal fold; light tape',
  hip_girth: 'greatest girth of the buttocks; light tape',
  waist_girth: 'least girth between ribs and iliac crest; light tape',
  chest_girth: 'at the level of the nipples, at the end of a normal breath out; light tape',
  axillary_girth: 'round the chest high under the arms; light tape',
  pelvic_breadth: 'between the anterior superior iliac spines; calliper',
  head_circumference: 'greatest fronto-occipital girth; tape',
  head_breadth: 'greatest breadth above the ears; calliper',
  head_length: 'glabella to opisthocranion; calliper',
  head_diagonal:
    'frontotemporal to the opposite occipital point at 30 degrees; left starts at the left forehead',
  hand_length: 'wrist crease to the tip of the longest finger, palm up; calliper',
  hand_breadth: 'across the knuckles of the second to fifth finger; calliper',
  forearm_length: 'elbow crease to wrist crease; tape',
  forearm_girth: 'greatest girth of the forearm; light tape',
  shoe_length: 'marked in the shoe that is worn; Mondopoint, the foot length the size is made for',
  weight: 'light clothing, scale',
};

const m = (
  id: MeasureId,
  label: string,
  plainLabel: string,
  sided: boolean,
  technicalError: number,
  plausible: readonly [number, number],
  skeletal = true,
  unit: 'mm' | 'kg' = 'mm',
): Measure => ({
  id,
  label,
  plainLabel,
  unit,
  sided,
  landmark: landmarks[id],
  technicalError,
  plausible,
  skeletal,
});

/** Technical errors: common practice, no source, unless a line says otherwise. */
export const measures: Readonly<Record<MeasureId, Measure>> = Object.fromEntries(
  [
    m('foot_length', 'Foot length', 'foot length', true, 2, [50, 340]),
    m('foot_breadth', 'Foot breadth', 'foot width', true, 1.5, [25, 140]),
    m('heel_width', 'Heel width', 'heel width', true, 1.5, [15, 110]),
    m('malleolar_width', 'Malleolar width', 'ankle width', true, 1.5, [20, 120]),
    m('ankle_height', 'Ankle height (sphyrion)', 'ankle height', true, 4, [15, 130]),
    m('knee_height', 'Knee joint height (tibiale)', 'knee height', true, 5, [90, 620]),
    m('fibular_head_height', 'Fibular head height', 'height of the outer knee bone', true, 4, [80, 600]),
    m('hip_height', 'Hip joint height (trochanterion)', 'hip height', true, 7, [150, 1150]),
    m('asis_height', 'ASIS height (iliospinale)', 'front hip bone height', true, 7, [170, 1250]),
    m('leg_length', 'Subischial leg length', 'leg length', true, 7, [120, 1150]),
    m('asis_malleolus_length', 'ASIS to malleolus length', 'leg length by tape', true, 7, [120, 1150]),
    m('sitting_height', 'Sitting height', 'sitting height', false, 5, [250, 1100]),
    m('stature', 'Stature', 'height', false, 4, [350, 2200]),
    m('ankle_girth', 'Ankle girth', 'ankle girth', true, 4, [60, 400], false),
    m('calf_girth', 'Calf girth', 'calf girth', true, 4, [70, 600], false),
    m('thigh_girth', 'Thigh girth', 'thigh girth', true, 4, [110, 950], false),
    m('hip_girth', 'Hip girth', 'hip girth', false, 4, [230, 1600], false),
    m('waist_girth', 'Waist girth', 'waist girth', false, 4, [220, 1600], false),
    m('chest_girth', 'Chest girth', 'chest girth', false, 5, [200, 1600], false),
    m('axillary_girth', 'Axillary girth', 'chest girth under the arms', false, 5, [200, 1600], false),
    m('pelvic_breadth', 'Pelvic breadth (bispinous)', 'pelvis width', false, 5, [60, 400]),
    m('head_circumference', 'Head circumference', 'head size', false, 2, [200, 700]),
    m('head_breadth', 'Head breadth', 'head width', false, 2, [60, 220]),
    m('head_length', 'Head length', 'head length', false, 2, [70, 260]),
    m('head_diagonal', 'Head diagonal', 'head diagonal', true, 2, [70, 260]),
    m('hand_length', 'Hand length', 'hand length', true, 1.5, [35, 260]),
    m('hand_breadth', 'Hand breadth', 'hand width', true, 1.5, [20, 130]),
    m('forearm_length', 'Forearm length', 'forearm length', true, 4, [50, 400]),
    m('forearm_girth', 'Forearm girth', 'forearm girth', true, 4, [60, 500], false),
    // A record of its own: no rule takes it for a reading of the foot.
    m('shoe_length', 'Shoe size (foot length it is made for)', 'shoe size', false, 8.5, [80, 340]),
    m('weight', 'Body weight', 'weight', false, 0.3, [0.5, 250], false, 'kg'),
  ].map((x) => [x.id, x]),
) as Record<MeasureId, Measure>;

/** One child's one dimension on one side: what a curve is fitted to. */
export interface Series {
  readonly measure: MeasureId;
  readonly side: Side;
}
/** 'foot_length/left'. */
export const seriesKey = (s: Series): string => `${s.measure}/${s.side}`;

/** What is read of a measure: each side, or the one worn on; of the whole body one. */
export function seriesOf(measure: MeasureId, worn: Side | 'both' = 'both'): Series[] {
  if (!measures[measure].sided) return [{ measure, side: 'none' }];
  const read = worn === 'left' || worn === 'right' ? [worn] : (['left', 'right'] as const);
  return read.map((side) => ({ measure, side }));
}

export const isHeadMeasure = (id: MeasureId): boolean => id.startsWith('head_');

/** Technical error in the measure's own unit at an age; feet under three years are harder to hold still (3 mm). */
export function technicalErrorAt(id: MeasureId, ageYears: number): number {
  return id === 'foot_length' && ageYears < 3 ? 3 : measures[id].technicalError;
}
