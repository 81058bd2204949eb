import type { MeasureId } from '../../records/measure.js';

export type DimensionId = 'length' | 'breadth' | 'height' | 'girth' | 'diagonal';
export type PartId = keyof typeof BY_PART;
type OfPart = Partial<Record<DimensionId | 'alone', readonly MeasureId[]>>;
/** The measure of a part of the body where the heading says which dimension, and the usual ones where it does not. */
export const BY_PART = {
  foot: { length: ['foot_length'], breadth: ['foot_breadth'], alone: ['foot_length'] },
  heel: { breadth: ['heel_width'], alone: ['heel_width'] },
  ankle: {
    height: ['ankle_height'],
    girth: ['ankle_girth'],
    breadth: ['malleolar_width'],
    alone: ['ankle_girth', 'ankle_height', 'malleolar_width'],
  },
  calf: { girth: ['calf_girth'], alone: ['calf_girth'] },
  knee: { height: ['knee_height'], alone: ['knee_height'] },
  fibula: { height: ['fibular_head_height'], alone: ['fibular_head_height'] },
  thigh: { girth: ['thigh_girth'], alone: ['thigh_girth'] },
  hip: { height: ['hip_height'], girth: ['hip_girth'], alone: ['hip_girth', 'hip_height'] },
  trochanter: { height: ['hip_height'], alone: ['hip_height'] },
  asis: { height: ['asis_height'], alone: ['asis_height'] },
  leg: { length: ['asis_malleolus_length'] },
  trunk: { height: ['sitting_height'], length: ['sitting_height'] },
  pelvis: { breadth: ['pelvic_breadth'], girth: ['hip_girth'], alone: ['pelvic_breadth', 'hip_girth'] },
  waist: { girth: ['waist_girth'], alone: ['waist_girth'] },
  chest: { girth: ['chest_girth'], alone: ['chest_girth'] },
  axilla: { girth: ['axillary_girth'], alone: ['axillary_girth'] },
  head: {
    girth: ['head_circumference'],
    length: ['head_length'],
    breadth: ['head_breadth'],
    diagonal: ['head_diagonal'],
    alone: ['head_circumference'],
  },
} as const satisfies Readonly<Record<string, OfPart>>;
export const measuresOf = (part: PartId, dimension: DimensionId | 'alone'): readonly MeasureId[] =>
  (BY_PART[part] as OfPart)[dimension] ?? [];
