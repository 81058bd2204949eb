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

/** Bars of a knee-ankle-foot orthosis with travel left. */
export const bars = { extensionRangeMm: { knee_height: 24, hip_height: 24 } };

/** An ankle-foot orthosis that leaves room at the toes and little at the ankle. */
export const ankle = () =>
  read(
    kid(7, 'female', { conditions: ['cerebral-palsy'] }),
    'foot_length/right 10:174 4.4:178 .3:181; malleolar_width/right 10:56 4.4:57 .3:58.5',
  ).device('solid-afo', 'right', 4.4);

/** A knee-ankle-foot orthosis with three holes left in its bars. */
export const knee = () =>
  read(
    kid(8, 'male', { conditions: ['other'] }),
    'knee_height/left 12:352 6:360 .3:365; foot_length/left 12:180 6:184 .3:187',
  ).device('kafo', 'left', 6, { extensionRangeMm: { knee_height: 36 } });

/** An ankle-foot orthosis fitted on a day, with room. */
export const fitted = (date: string, more: Record<string, unknown> = {}) =>
  read(
    kid(7, 'female', { conditions: ['cerebral-palsy'], ...more }),
    'foot_length/left 12:171 6:175 2:178',
  ).device('solid-afo', 'left', 2, { fittedDate: date });

/** A hip orthosis set to 40 to 60 degrees, the right hip found at 50. */
export const hips = (left: number) =>
  read(
    kid(0.8, 'female', { conditions: ['hip-dysplasia'] }),
    'thigh_girth/left 2:232 .2:236; thigh_girth/right 2:232 .2:236',
  )
    .device('hip-abduction-orthosis', 'both', 2, { hipAngleFrom: 40, hipAngleTo: 60 })
    .event('verdict', 0.2, { verdict: 'good', hipAngleLeft: left, hipAngleRight: 50 });
