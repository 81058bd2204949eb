import type { Action } from '../../src/recall/contract.js';
import type { MeasureId, Side } from '../../src/records/measure.js';
import { buildChild } from '../forecast/build-record.js';

export const TODAY = '2026-11-25';
export type Built = ReturnType<typeof buildChild>;

export interface PractitionerCase {
  readonly name: string;
  readonly child: () => Built;
  /** What someone who does the job would do; null: not on any list. */
  readonly action: Action | null;
  /** Why. Common practice, no source, every one of them. */
  readonly why: string;
  /** Rough days between which it is to be cast, where that is the point. */
  readonly castBy?: readonly [from: string, to: string];
  /** Devices the visit is for, by place in the record, where that is the point. */
  readonly devices?: readonly number[];
  readonly eligibleAfterMonths?: Record<string, number>;
  /** Where the answer is another one, and why: left to see, not made to agree. */
  readonly differs?: { readonly action: Action; readonly why: string };
}

export const kid = (ageYears: number, sex: 'male' | 'female', more: Record<string, unknown> = {}) =>
  buildChild(TODAY, ageYears, { sex, ...more });

/**
 * Readings as 'months ago:mm', a series a line or semicolon: 'foot_length/left 9:186 3:190; stature 9:1200'. Without a
 * side the measure has none.
 */
export function read(child: Built, text: string): Built {
  for (const line of text.split(';')) {
    const [series, ...rows] = line.trim().split(/\s+/);
    const [measure, side = 'none'] = series.split('/');
    for (const row of rows) {
      const [months, mm] = row.split(':').map(Number);
      child.measured(measure as MeasureId, side as Side, months, mm);
    }
  }
  return child;
}
