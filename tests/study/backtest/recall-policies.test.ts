import { describe, expect, it } from 'vitest';
import { DAYS_A_YEAR } from '../../../src/records/dates.js';
import type { GrowthRecord } from '../../../src/study/backtest/growth-record.js';
import { fixedReviews } from '../../../src/study/backtest/recall/fixed-review.js';
import { oracle } from '../../../src/study/backtest/recall/oracle.js';
import { lateDays } from '../../../src/study/backtest/recall/planned-recall.js';
import type { RecallPolicy } from '../../../src/study/backtest/recall/recall-policy.js';
import { simulateRecall } from '../../../src/study/backtest/recall/simulate-recall.js';
import { referenceSizeCurves } from '../../../src/study/backtest/reference-curves.js';

/** A leg that grows exactly 24 mm a year, watched from 9 to 15, so that every date can be worked by hand. */
const straight: GrowthRecord = {
  id: 'straight',
  sex: 'male',
  visits: Array.from({ length: 21 }, (_, i) => 8 + i / 2).map((ageYears) => ({
    ageYears,
    sizes: { stature: 1200 + 50 * (ageYears - 8), leg_length: 600 + 24 * (ageYears - 8) },
  })),
};
const clean = { allowanceMm: 10, turnaroundDays: 0, noise: 'clean', seed: 1, toAge: 15 } as const;
const fixed = (name: string, setting: string) =>
  fixedReviews(referenceSizeCurves('children').published).find(
    (p) => p.policy === name && p.setting === setting,
  )!;
const every = (days: number, recast: boolean): RecallPolicy => ({
  policy: 'test',
  setting: '',
  decide: () => ({ recast, nextVisitDays: days }),
});

describe('recall policies on a leg of 24 mm a year, allowance 10 mm (outgrown after 152.2 days)', () => {
  it('three-monthly review, cast when outgrown: a cast every second review, 30 days late each', () => {
    const cost = simulateRecall(straight, fixed('fixed 3-monthly', 'cast when outgrown'), clean)!;
    // Reviews 91 days apart: seen outgrown on day 182, first day outgrown 153, 29 days each; 12 casts end on day 2184,
    // the last device stays good to the end on day 2192.
    expect(cost.visits).toBe(24);
    expect(cost.casts).toBe(12);
    expect(cost.daysOutgrown).toBe(12 * 29);
  });
  it('a new device at every visit within the allowance is never outgrown', () => {
    const cost = simulateRecall(straight, every(150, true), clean)!;
    expect(cost.daysOutgrown).toBe(0);
    expect(cost.casts).toBe(Math.floor((6 * DAYS_A_YEAR) / 150));
    expect(cost.visits).toBe(cost.casts);
  });
  it('a turnaround of 21 days is worn outgrown when the cast waits for the last day', () => {
    const now = simulateRecall(straight, every(152, true), clean)!;
    const later = simulateRecall(straight, every(152, true), { ...clean, turnaroundDays: 21 })!;
    expect(now.daysOutgrown).toBe(0);
    // From day 153 of a device until its replacement is fitted on day 173: 20 days, 14 casts; the last device stays good.
    expect(later.daysOutgrown).toBe(14 * 20);
  });
  it('the oracle needs a cast every 152 days and nothing more', () => {
    const cost = simulateRecall(straight, oracle(straight), clean)!;
    expect(cost).toMatchObject({ visits: 14, casts: 14, daysOutgrown: 0 });
  });
  it('never recasting leaves it outgrown for ever after', () => {
    const cost = simulateRecall(straight, { ...every(10_000, false) }, clean)!;
    expect(cost.casts).toBe(0);
    expect(cost.daysOutgrown).toBe(Math.round(6 * DAYS_A_YEAR) - 153);
  });
});

describe('days worn outgrown', () => {
  it('is the mean of what lies past each life', () => {
    expect(lateDays([100, 200, 300, Infinity], 250)).toBe((150 + 50) / 4);
  });
});
