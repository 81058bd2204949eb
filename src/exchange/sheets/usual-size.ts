import { isHeadMeasure, type MeasureId, measures } from '../../records/measure.js';

/**
 * Roughly how large a measure is at an age, to tell mm, cm and inches apart (a factor of 2.5 or more), never to judge a
 * reading: body height at whole ages, and each length as a share of it. Common practice, no source; checked in tests
 * against the published references.
 */
const AGES = [0, 0.5, 1, 2, 4, 6, 8, 10, 12, 14, 16, 18];
const STATURE = [500, 660, 750, 870, 1030, 1160, 1280, 1385, 1500, 1620, 1690, 1720];
const WEIGHT = [3.4, 7.5, 9.7, 12.2, 16.5, 21, 26, 33, 42, 52, 60, 65];
const HEAD = [345, 430, 460, 485, 505, 515, 522, 530, 540, 550, 556, 560];
const SHARE: Partial<Record<MeasureId, number>> = {
  foot_length: 0.153,
  shoe_length: 0.153,
  foot_breadth: 0.06,
  heel_width: 0.04,
  malleolar_width: 0.042,
  ankle_height: 0.045,
  knee_height: 0.265,
  fibular_head_height: 0.24,
  hip_height: 0.48,
  asis_height: 0.53,
  leg_length: 0.46,
  asis_malleolus_length: 0.5,
  sitting_height: 0.56,
  stature: 1,
  ankle_girth: 0.135,
  calf_girth: 0.195,
  thigh_girth: 0.28,
  hip_girth: 0.5,
  waist_girth: 0.48,
  chest_girth: 0.52,
  axillary_girth: 0.53,
  pelvic_breadth: 0.155,
};

function at(table: readonly number[], age: number): number {
  const years = Math.min(18, Math.max(0, age));
  const next = Math.max(
    1,
    AGES.findIndex((a) => a >= years),
  );
  const share = (years - AGES[next - 1]) / (AGES[next] - AGES[next - 1]);
  return table[next - 1] + share * (table[next] - table[next - 1]);
}

/** Whether a size in mm (kg) can belong to a child of this age; without an age, to any child. */
export function canBe(measure: MeasureId, size: number, ageYears: number | null): boolean {
  const [min, max] = measures[measure].plausible;
  if (size < min || size > max) return false;
  if (ageYears === null) return true;
  const usual = usualSize(measure, ageYears);
  if (usual === null) return true;
  const wide = measures[measure].skeletal ? 1.55 : 1.9;
  return size > usual / wide && size < usual * wide;
}

/** Whether children between half a year and 18 years have about such a size; of 'Ankle' it tells the girth from the height. */
export function isUsual(measure: MeasureId, size: number): boolean {
  const [small, large] = [usualSize(measure, 0.5), usualSize(measure, 18)];
  return small === null || large === null || (size > small / 1.3 && size < large * 1.3);
}

/** About what a child of this age has, mm (kg); null where nobody says. */
export function usualSize(measure: MeasureId, age: number): number | null {
  if (measure === 'weight') return at(WEIGHT, age);
  if (isHeadMeasure(measure)) return at(HEAD, age) * (measure === 'head_circumference' ? 1 : 0.31);
  const share = SHARE[measure];
  return share === undefined ? null : share * at(STATURE, age);
}
