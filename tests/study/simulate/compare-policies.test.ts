import { expect, it } from 'vitest';
import { atEqualVisits, bestPolicy } from '../../../src/study/simulate/compare-policies.js';
import { bootstrap, type PolicySummary } from '../../../src/study/simulate/summarise-policies.js';

// Policies by hand; no outside source.
const policy = (name: string, visits: number, weightedDays: number[], cost: number[]): PolicySummary => {
  const mean = (x: number) => ({ mean: x, low: x, high: x });
  const none = mean(0);
  return {
    ...{ policy: name, children: cost.length, thrownAwayDays: none, casts: none, adjustments: none },
    ...{ parts: none, overtimeWeeks: none },
    ...{ visits: mean(visits), weightedDays: bootstrap(weightedDays, 1), cost: bootstrap(cost, 1) },
    ofChildren: { weightedDays, cost },
  };
};
/** Costs of ten children far apart, so that the intervals of any two policies overlap. */
const costs = (more: (k: number) => number) => Array.from({ length: 10 }, (_, k) => 10 * k + more(k));
const days = (each: number) => new Array<number>(10).fill(each);

it('a cost that is more in every child is told from the least, though the intervals overlap', () => {
  const least = policy(
    'forecast a',
    4,
    days(9),
    costs(() => 0),
  );
  const dearer = policy(
    'forecast b',
    4,
    days(1),
    costs(() => 2),
  );
  expect(dearer.cost.low).toBeLessThan(least.cost.high);
  expect(bestPolicy([dearer, least])).toBe(least);
  const nowMoreNowLess = policy(
    'forecast c',
    4,
    days(5),
    costs((k) => (k % 2 ? 8 : -7)),
  );
  expect(bestPolicy([dearer, nowMoreNowLess, least])).toBe(nowMoreNowLess);
});

it('a forecast is held against the fixed review of least cost that sees children as often, child by child', () => {
  const forecast = policy(
    'forecast',
    4,
    days(2),
    costs(() => 0),
  );
  const often = policy(
    '3-monthly',
    4.05,
    days(8),
    costs(() => 5),
  );
  const cheap = policy(
    '4-monthly',
    3.95,
    days(6),
    costs(() => 1),
  );
  const seldom = policy(
    '12-monthly',
    1,
    days(40),
    costs(() => -5),
  );
  const [compared] = atEqualVisits([often, cheap, seldom, forecast]);
  expect(compared).toMatchObject({ fixed: '4-monthly', ratio: 2 / 6, fewer: { mean: 4, low: 4, high: 4 } });
});
