/** Reckoned by hand; usual lives from the family's rule, common practice, no source. */
import { expect, it } from 'vitest';
import { workloadAhead } from '../../src/pages/clinic/workload-ahead.js';
import { deviceRecord } from '../../src/records/device.js';
import { childRecord } from '../../src/records/records.js';
import { usualLifetimeMonths } from '../../src/rules/by-age.js';
import { loadRules } from '../../src/rules/load-rules.js';

const rules = loadRules();
const today = '2026-11-27';
const child = (id: string, birthDate: string, status = 'active') =>
  childRecord.parse({ id, birthDate, sex: 'female', status });
const device = (childId: string, rest = {}) =>
  deviceRecord.parse({
    id: `${childId}-d`,
    childId,
    family: 'solid-afo',
    side: 'left',
    castDate: '2026-09-01',
    fittedDate: '2026-09-20',
    status: 'worn',
    ...rest,
  });
const ahead = (middle: string | null, children = [child('a', '2022-11-27')], rest = {}) =>
  workloadAhead(
    { children, devices: [device('a', rest)] },
    () => middle,
    () => 21,
    rules,
    today,
  );

it('counts the first cast before the middle date and its successors, and does not fall to nothing', () => {
  const { months, families } = ahead('2027-02-10');
  expect(months[0]).toBe('2026-11');
  expect(months).toHaveLength(12);
  const [{ casts }] = families;
  // 10 February less 21 days is 20 January; the next after the usual life of a child of four.
  expect(casts[2]).toBe(1);
  const life = usualLifetimeMonths(rules.get('solid-afo')!, 4.1)!;
  const next = 2 + Math.floor(20 / 30.44 + (life.low + life.high) / 2);
  if (next < 12) expect(casts[next] + (casts[next - 1] ?? 0)).toBeGreaterThan(0);
});

it('puts a late cast into this month, and nothing for the grown up, the retired and who moved away', () => {
  expect(ahead('2026-05-01').families[0].casts[0]).toBe(1);
  expect(
    ahead(null).families[0].casts.some((n) => n > 0),
    'without a forecast the usual life',
  ).toBe(true);
  expect(ahead('2027-02-10', [child('a', '2005-01-01')]).families).toEqual([]);
  expect(ahead('2027-02-10', [child('a', '2022-11-27', 'moved-away')]).families).toEqual([]);
  expect(ahead('2027-02-10', undefined, { status: 'retired' }).families).toEqual([]);
});
