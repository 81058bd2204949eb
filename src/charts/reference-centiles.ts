import { lmsAt, type References, sizeAtZ } from '../reference/reference.js';
import { normalQuantile } from '../statistics/normal-quantile.js';
import type { CentileAt } from './centile-rows.js';

/** Centile lines of a loaded reference, for a growth chart. */
export const referenceCentiles =
  (references: References): CentileAt =>
  (sex, measure, ageYears, centile) => {
    const lms = lmsAt(references, measure, sex, ageYears);
    return lms && sizeAtZ(lms, normalQuantile(centile / 100));
  };
