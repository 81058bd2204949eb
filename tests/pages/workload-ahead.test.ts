/** Reckoned by hand; usual lives from the family's rule, common practice, no source. */
import { expect, it } from 'vitest';
import { castsByWeek, yearCounts } from '../../src/pages/clinic/overview-view.js';
import { byCount, endReasons, workloadAhead } from '../../src/pages/clinic/workload-ahead.js';
import { type DeviceEvent, deviceRecord } from '../../src/records/device.js';
import { childRecord } from '../../src/records/records.js';
import { usualLifetimeMonths } from '../../src/rules/by-age.js';
import { loadRules } from '../../src/rules/load-rules.js';
import type { RecallRow } from '../../src/store/contract.js';

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
const ahead = (
  middle: string | null,
  children = [child('a', '2022-11-27')],
  rest = {},
  funded: Record<string, number> = {},
) =>
  workloadAhead(
    { children, devices: [device('a', rest)] },
    () => middle,
    () => 21,
    funded,
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

it('expects the successor to be outgrown as fast as this one where that is sooner than the usual life', () => {
  // By hand: cast 1 September, outgrown 10 February, 162 days on; made in 21: the next 141 days after the cast.
  expect(ahead('2027-02-10').all.map((c) => [c.day, c.later])).toEqual([
    ['2027-01-20', false],
    ['2027-06-10', true],
    ['2027-10-29', true],
  ]);
});

it('puts a late cast into this month, and nothing for the grown up, the retired and who moved away', () => {
  expect(ahead('2026-05-01').families[0].casts[0]).toBe(1);
  expect(
    ahead(null).families[0].casts.some((n) => n > 0),
    'without a forecast the usual life',
  ).toBe(true);
  expect(ahead('2027-02-10', [child('a', '2005-01-01')]).all).toEqual([]);
  expect(ahead('2027-02-10', [child('a', '2022-11-27', 'moved-away')]).families).toEqual([]);
  expect(ahead('2027-02-10', undefined, { status: 'retired' }).families).toEqual([]);
});

it('waits for the funder, and counts a device whose next is being made once', () => {
  const [{ casts, inUse }] = ahead('2027-02-10', undefined, {}, { 'solid-afo': 9 }).families;
  expect(inUse).toBe(1);
  // Fitted 20 September and paid again nine months on: 20 June; needed on 20 January.
  expect(casts[2]).toBe(0);
  expect(casts[7]).toBe(1);
  const next = device('a', {
    id: 'a-next',
    replaces: 'a-d',
    castDate: '2026-11-20',
    fittedDate: null,
    status: 'ordered',
  });
  const { all } = workloadAhead(
    { children: [child('a', '2022-11-27')], devices: [device('a'), next] },
    () => '2027-02-10',
    () => 21,
    {},
    rules,
    today,
  );
  expect(new Set(all.map((c) => c.deviceId))).toEqual(new Set(['a-next']));
});

it('counts a helmet outgrown in its course once more, and none after the course', () => {
  const baby = [child('a', '2026-05-01')];
  const helmet = {
    family: 'cranial-orthosis',
    side: 'none',
    castDate: '2026-10-20',
    fittedDate: '2026-11-01',
  };
  // The course runs 122 days from the fitting, to 3 March.
  expect(ahead('2027-02-10', baby, helmet).all.map((c) => [c.day, c.later])).toEqual([['2027-01-20', false]]);
  expect(ahead('2027-03-20', baby, helmet).all).toEqual([]);
  expect(ahead(null, baby, helmet).all, 'without a date of its own').toEqual([]);
});

it('tells first casts of the year from those that follow another', () => {
  const devices = [
    device('a', { castDate: '2025-10-01' }),
    device('a', { id: 'a-2', castDate: '2026-09-01' }),
    device('a', { id: 'a-right', castDate: '2026-09-01', side: 'right' }),
    device('b', { castDate: '2026-09-01', replaces: 'elsewhere' }),
  ];
  const { casts, firstCasts } = yearCounts({ children: [], devices }, { visits: 0, last: [] }, today);
  expect([casts, firstCasts]).toEqual([3, 1]);
});

it('goes on in the weeks after the list, both sides of a child as one appointment', () => {
  const slots = new Map(
    Array.from({ length: 26 }, (_, i): [string, number] => {
      const monday = new Date(Date.UTC(2026, 10, 23 + 7 * i));
      return [monday.toISOString().slice(0, 10), 4];
    }),
  );
  const cast = (deviceId: string, day: string, later = false) => ({
    childId: 'a',
    deviceId,
    family: 'solid-afo',
    day,
    later,
  });
  const casts = [cast('l', '2027-01-20'), cast('r', '2027-01-22'), cast('l', '2027-04-07', true)];
  const listed = {
    childId: 'a',
    state: 'to-call',
    entry: { action: 'cast', deviceIds: ['l', 'r'], plannedWeek: '2026-12-07', castBy: '2026-12-10' },
  } as unknown as RecallRow;
  const loaded = (rows: RecallRow[]) =>
    castsByWeek(rows, slots, casts).flatMap((w) => (w.load > 0 ? [[w.weekStart, w.load]] : []));
  expect(loaded([])).toEqual([
    ['2027-01-18', 1],
    ['2027-04-05', 1],
  ]);
  expect(loaded([listed]), 'what the list has, in its week').toEqual([
    ['2026-12-07', 1],
    ['2027-04-05', 1],
  ]);
});

it('says why devices ended: as told, else as judged, else that the next replaced it', () => {
  const retired = (deviceId: string, endReason: string | null = null) =>
    ({ kind: 'retired', deviceId, date: '2026-10-01', endReason, verdict: null }) as unknown as DeviceEvent;
  const judged = {
    kind: 'verdict',
    deviceId: 'b',
    date: '2026-09-01',
    verdict: 'outgrown',
  } as unknown as DeviceEvent;
  const events = [retired('a', 'worn-out'), retired('b'), judged, retired('c'), retired('d')];
  const devices = [device('x', { replaces: 'c' })];
  expect(Object.fromEntries(byCount(endReasons({ devices, events }, today)))).toEqual({
    'worn out': 1,
    outgrown: 1,
    'replaced by the next, reason not said': 1,
    'not said': 1,
  });
});
