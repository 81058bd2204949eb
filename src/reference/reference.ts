import type { MeasureId } from '../records/measure.js';
import { type Lms, lmsSizeAtZ, lmsZScore } from '../statistics/lms.js';
import { normalCdf } from '../statistics/normal-cdf.js';
import { loadReferenceRows, referencesFrom } from './load-reference-source.js';
import { publishedGrowth } from './published-growth.js';

export { loadReferenceSource, referenceSources } from './load-reference-source.js';
export type { References } from './reference-curve.js';

import { type ReferenceCurve, type References, referenceKey } from './reference-curve.js';
import type { ReferenceSex } from './reference-table.js';

/** Head circumference: WHO to 18 months, the survey's from 27 months on; a year of slow growth between. */
const HEAD_WHO_UNTIL_YEARS = 1.51;
const HEAD_SURVEY_FROM_YEARS = 2.25;
let cached: References | undefined;

/**
 * The working reference: every measure, both sexes, birth to 20 years. Stature and weight as published (WHO
 * 2006, then CDC 2000), head circumference WHO 2006 in infancy, everything else as fitted to the 1977 survey
 * of US children. Read once, then kept.
 */
export function loadReferences(): References {
  if (cached) return cached;
  const survey = loadReferenceRows('us-children-1977').filter(
    (r) =>
      r.measure !== 'stature' &&
      r.measure !== 'weight' &&
      (r.measure !== 'head_circumference' || r.ageYears >= HEAD_SURVEY_FROM_YEARS),
  );
  const infantHeads = loadReferenceRows('who-2006').filter(
    (r) => r.measure === 'head_circumference' && r.ageYears <= HEAD_WHO_UNTIL_YEARS,
  );
  const published = [...publishedGrowth('stature'), ...publishedGrowth('weight')];
  cached = referencesFrom('working', [...survey, ...infantHeads, ...published]);
  return cached;
}

/** The curve of one measure, null where the table has none. */
export function curveOf(refs: References, measure: MeasureId, sex: ReferenceSex): ReferenceCurve | null {
  return refs.curves.get(referenceKey(measure, sex)) ?? null;
}

/** L, M, S at an age in decimal years; null outside the ages of the table or where it lacks the measure. */
export function lmsAt(refs: References, measure: MeasureId, sex: ReferenceSex, ageYears: number): Lms | null {
  const curve = curveOf(refs, measure, sex);
  if (!curve || !(ageYears >= curve.fromYears && ageYears <= curve.toYears)) return null;
  return curve.at(ageYears);
}

/** How many standard deviations from the median, on the scale the reference makes normal. */
export const zScore = (lms: Lms, value: number): number => lmsZScore(lms, value);

/** The size at a z-score, in the reference's unit; finite and rising for every z. */
export const sizeAtZ = (lms: Lms, z: number): number => lmsSizeAtZ(lms, z);

/** The centile of a value, 0 to 100. */
export const centile = (lms: Lms, value: number): number => 100 * normalCdf(lmsZScore(lms, value));
