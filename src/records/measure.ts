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
  /** Anatomical landmarks and instrument. */
  readonly landmark: string;
  /** Technical error of measurement (one SD of a single reading), in `unit`; common practice unless stated. */
  readonly technicalError: number;
  /** Values outside are refused as impossible, in `unit`. */
  readonly plausible: readonly [min: number, max: number];
  /** A skeletal length cannot shrink beyond technical error; a girth or weight can. */
  readonly skeletal: boolean;
}

const m = (
  id: MeasureId,
  label: string,
  plainLabel: string,
  sided: boolean,
  landmark: string,
  technicalError: number,
  plausible: readonly [number, number],
  skeletal = true,
  unit: 'mm' | 'kg' = 'mm',
): Measure => ({ id, label, plainLabel, unit, sided, landmark, technicalError, plausible, skeletal });

/** Technical errors: common practice, no source, unless a line says otherwise. */
export const measures: Readonly<Record<MeasureId, Measure>> = Object.fromEntries(
  [
    m(
      'foot_length',
      'Foot length',
      'foot length',
      true,
      'heel (pternion) to longest toe, parallel to the foot axis; foot gauge',
      2,
      [50, 340],
    ),
    m(
      'foot_breadth',
      'Foot breadth',
      'foot width',
      true,
      'metatarsale tibiale to metatarsale fibulare; calliper',
      1.5,
      [25, 140],
    ),
    m(
      'heel_width',
      'Heel width',
      'heel width',
      true,
      'greatest breadth of the heel, standing; calliper',
      1.5,
      [15, 110],
    ),
    m(
      'malleolar_width',
      'Malleolar width',
      'ankle width',
      true,
      'between the tips of the medial and lateral malleolus; calliper',
      1.5,
      [20, 120],
    ),
    m(
      'ankle_height',
      'Ankle height (sphyrion)',
      'ankle height',
      true,
      'sole to sphyrion tibiale (distal tip of the medial malleolus)',
      4,
      [15, 130],
    ),
    m(
      'knee_height',
      'Knee joint height (tibiale)',
      'knee height',
      true,
      'sole to tibiale (medial edge of the tibial plateau), standing',
      5,
      [90, 620],
    ),
    m(
      'fibular_head_height',
      'Fibular head height',
      'height of the outer knee bone',
      true,
      'sole to the tip of the fibular head, standing',
      4,
      [80, 600],
    ),
    m(
      'hip_height',
      'Hip joint height (trochanterion)',
      'hip height',
      true,
      'sole to trochanterion (top of the greater trochanter), standing',
      7,
      [150, 1150],
    ),
    m(
      'asis_height',
      'ASIS height (iliospinale)',
      'front hip bone height',
      true,
      'sole to anterior superior iliac spine, standing',
      7,
      [170, 1250],
    ),
    m(
      'leg_length',
      'Subischial leg length',
      'leg length',
      true,
      'stature less sitting height',
      7,
      [120, 1150],
    ),
    m(
      'asis_malleolus_length',
      'ASIS to malleolus length',
      'leg length by tape',
      true,
      'anterior superior iliac spine to the tip of the medial malleolus, lying; tape',
      7,
      [120, 1150],
    ),
    m(
      'sitting_height',
      'Sitting height',
      'sitting height',
      false,
      'vertex to seat; box and stadiometer',
      5,
      [250, 1100],
    ),
    m(
      'stature',
      'Stature',
      'height',
      false,
      'vertex to floor; stadiometer (lying length under 2 years)',
      4,
      [350, 2200],
    ),
    m(
      'ankle_girth',
      'Ankle girth',
      'ankle girth',
      true,
      'least girth above the malleoli; light tape',
      4,
      [60, 400],
      false,
    ),
    m(
      'calf_girth',
      'Calf girth',
      'calf girth',
      true,
      'greatest girth of the calf; light tape',
      4,
      [70, 600],
      false,
    ),
    m(
      'thigh_girth',
      'Thigh girth',
      'thigh girth',
      true,
      'upper thigh below the gluteal fold; light tape',
      4,
      [110, 950],
      false,
    ),
    m(
      'hip_girth',
      'Hip girth',
      'hip girth',
      false,
      'greatest girth of the buttocks; light tape',
      4,
      [230, 1600],
      false,
    ),
    m(
      'waist_girth',
      'Waist girth',
      'waist girth',
      false,
      'least girth between ribs and iliac crest; light tape',
      4,
      [220, 1600],
      false,
    ),
    m(
      'chest_girth',
      'Chest girth',
      'chest girth',
      false,
      'at the level of the nipples, at the end of a normal breath out; light tape',
      5,
      [200, 1600],
      false,
    ),
    m(
      'axillary_girth',
      'Axillary girth',
      'chest girth under the arms',
      false,
      'round the chest high under the arms; light tape',
      5,
      [200, 1600],
      false,
    ),
    m(
      'pelvic_breadth',
      'Pelvic breadth (bispinous)',
      'pelvis width',
      false,
      'between the anterior superior iliac spines; calliper',
      5,
      [60, 400],
    ),
    m(
      'head_circumference',
      'Head circumference',
      'head size',
      false,
      'greatest fronto-occipital girth; tape',
      2,
      [200, 700],
    ),
    m(
      'head_breadth',
      'Head breadth',
      'head width',
      false,
      'greatest breadth above the ears; calliper',
      2,
      [60, 220],
    ),
    m(
      'head_length',
      'Head length',
      'head length',
      false,
      'glabella to opisthocranion; calliper',
      2,
      [70, 260],
    ),
    m(
      'head_diagonal',
      'Head diagonal',
      'head diagonal',
      true,
      'frontotemporal to the opposite occipital point at 30 degrees; left starts at the left forehead',
      2,
      [70, 260],
    ),
    m(
      'hand_length',
      'Hand length',
      'hand length',
      true,
      'wrist crease to the tip of the longest finger, palm up; calliper',
      1.5,
      [35, 260],
    ),
    m(
      'hand_breadth',
      'Hand breadth',
      'hand width',
      true,
      'across the knuckles of the second to fifth finger; calliper',
      1.5,
      [20, 130],
    ),
    m(
      'forearm_length',
      'Forearm length',
      'forearm length',
      true,
      'elbow crease to wrist crease; tape',
      4,
      [50, 400],
    ),
    m(
      'forearm_girth',
      'Forearm girth',
      'forearm girth',
      true,
      'greatest girth of the forearm; light tape',
      4,
      [60, 500],
      false,
    ),
    // A record of its own: no rule takes it for a reading of the foot.
    m(
      'shoe_length',
      'Shoe size (foot length it is made for)',
      'shoe size',
      false,
      'marked in the shoe that is worn; Mondopoint, the foot length the size is made for',
      8.5,
      [80, 340],
    ),
    m('weight', 'Body weight', 'weight', false, 'light clothing, scale', 0.3, [0.5, 250], false, 'kg'),
  ].map((x) => [x.id, x]),
) as Record<MeasureId, Measure>;

/** One child's one dimension on one side: what a curve is fitted to. */
export interface Series {
  readonly measure: MeasureId;
  readonly side: Side;
}
/** 'foot_length/left'. */
export const seriesKey = (s: Series): string => `${s.measure}/${s.side}`;

export const isHeadMeasure = (id: MeasureId): boolean => id.startsWith('head_');

/** Technical error in the measure's own unit at an age; feet under three years are harder to hold still (3 mm). */
export function technicalErrorAt(id: MeasureId, ageYears: number): number {
  return id === 'foot_length' && ageYears < 3 ? 3 : measures[id].technicalError;
}
