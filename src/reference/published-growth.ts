import type { MeasureId } from '../records/measure.js';
import { loadReferenceRows } from './load-reference-source.js';
import type { ReferenceRow } from './reference-table.js';

/** Last WHO age and first CDC age used: between 22 and 24.5 months lying length hands over to stature. */
const WHO_UNTIL_YEARS = 22.5 / 12;
const CDC_FROM_YEARS = 24.4 / 12;

/**
 * Stature and weight as published: WHO 2006 up to 22 months (length measured lying), CDC 2000 from 24.5
 * months on. The 9 weeks between are left to interpolation, so that the median does not step down where
 * a child is stood up.
 */
export function publishedGrowth(measure: Extract<MeasureId, 'stature' | 'weight'>): ReferenceRow[] {
  return [
    ...loadReferenceRows('who-2006').filter((r) => r.measure === measure && r.ageYears < WHO_UNTIL_YEARS),
    ...loadReferenceRows('cdc-2000').filter((r) => r.measure === measure && r.ageYears > CDC_FROM_YEARS),
  ];
}
