import { loadReferenceRows } from './load-reference-source.js';
import type { ReferenceRow } from './reference-table.js';

/** Last WHO age and first CDC age used; the months between are left to interpolation. */
const HAND_OVER_YEARS = { stature: [1.51, 2.5], weight: [1.51, 3] } as const;

/**
 * Stature and weight as published: WHO 2006 up to 18 months (length measured lying), CDC 2000 from 2.5 years
 * (stature) and 3 years (weight) on. Where a child is stood up, 7 mm shorter than lying, and CDC's children take
 * over from WHO's, 9 mm taller at that age, nobody grows: interpolated over a year, the step does not show as a
 * stop and a spurt, and the median is within 8 mm and 0.6 kg of the nearer of the two.
 */
export function publishedGrowth(measure: 'stature' | 'weight'): ReferenceRow[] {
  const [until, from] = HAND_OVER_YEARS[measure];
  return [
    ...loadReferenceRows('who-2006').filter((r) => r.measure === measure && r.ageYears < until),
    ...loadReferenceRows('cdc-2000').filter((r) => r.measure === measure && r.ageYears > from),
  ];
}
