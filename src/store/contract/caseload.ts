/** All records at once. */

import type { IsoDate } from '../../records/dates.js';

export interface VisitDays {
  readonly visits: number;
  /** Active children only; null without any reading. */
  readonly last: readonly { readonly childId: string; readonly date: IsoDate | null }[];
}
