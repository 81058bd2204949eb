import type { MeasureId } from '../records/measure.js';
import { type Lms, lmsSizeAtZ, lmsZScore } from '../statistics/lms.js';
import { normalCdf } from '../statistics/normal-cdf.js';
import { loadReferenceRows, referencesFrom } from './load-reference-source.js';
import { publishedGrowth } from './published-growth.js';

export { loadReferenceSource, referenceSources } from './load-reference-source.js';
export type { References } from './reference-curve.js';

import { type ReferenceCurve, type References, referenceKey } from './reference-curve.js';
import type { ReferenceRow, ReferenceSex } from './reference-table.js';

/**
 * Head circumference: WHO to 18 months, the survey's from 4.5 years, passing from one to the other between them. The
 * survey's children have larger heads than WHO's, which is no growth.
 */
const HEAD_HAND_OVER_YEARS = [1.5, 4.5] as const;
let cached: References | undefined;

/**
 * The working reference: every measure, both sexes, birth to 20 years. Stature and weight as published (WHO
 * 2006, then CDC 2000), head circumference WHO 2006 in infancy, everything else as fitted to the 1977 survey
 * of US children. Read once, then kept.
 */
export function loadReferences(): References {
  if (cached) return cached;
  const survey = loadReferenceRows('us-children-1977').filter(
    (r) => r.measure !== 'stature' && r.measure !== 'weight',
  );
  const published = [...publishedGrowth('stature'), ...publishedGrowth('weight')];
  cached = referencesFrom('working', [...withInfantHeads(survey), ...published]);
  return cached;
}

function withInfantHeads(survey: readonly ReferenceRow[]): ReferenceRow[] {
  const [from, to] = HEAD_HAND_OVER_YEARS;
  const infants = loadReferenceRows('who-2006').filter((r) => r.measure === 'head_circumference');
  const who = referencesFrom('who-2006', infants);
  const blended = survey.flatMap((row) => {
    const infant = who.curves.get(referenceKey(row.measure, row.sex))?.at(row.ageYears);
    if (!infant || row.ageYears >= to) return [row];
    if (row.ageYears < from) return [];
    const f = (row.ageYears - from) / (to - from);
    const share = f * f * (3 - 2 * f);
    const at = (a: number, b: number) => a ** (1 - share) * b ** share;
    return [
      { ...row, l: infant.l + share * (row.l - infant.l), m: at(infant.m, row.m), s: at(infant.s, row.s) },
    ];
  });
  return [...infants.filter((r) => r.ageYears < from), ...blended];
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
