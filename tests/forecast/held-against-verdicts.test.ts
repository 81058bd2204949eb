/** Forecasts against verdicts: counted by hand on a few devices, and against a world in which the forecasts are true. */
import { describe, expect, it } from 'vitest';
import { heldAgainstVerdicts, type KeptForecast } from '../../src/forecast/device/held-against-verdicts.js';
import { addDaysIso } from '../../src/records/dates.js';
import { type DeviceEvent, deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { randomStream } from '../../src/statistics/random-stream.js';

const device = (id: string) =>
  deviceRecord.parse({
    id,
    childId: `child of ${id}`,
    family: 'solid-afo',
    side: 'left',
    castDate: '2024-12-01',
    fittedDate: '2024-12-20',
    status: 'worn',
  });
const event = (deviceId: string, date: string, rest: Partial<DeviceEvent>): DeviceEvent =>
  deviceEventRecord.parse({
    id: `${deviceId} ${date} ${rest.verdict}`,
    deviceId,
    date,
    kind: 'verdict',
    ...rest,
  });
const kept = (deviceId: string, rest: Partial<KeptForecast> = {}): KeptForecast => ({
  deviceId,
  today: '2025-01-01',
  outcome: 'forecast',
  p10: '2025-04-01',
  p50: '2025-07-01',
  p90: '2025-10-01',
  ...rest,
});
const today = '2025-12-31';

describe('forecasts held against verdicts, counted by hand', () => {
  const one = (events: DeviceEvent[], forecasts = [kept('d')]) =>
    heldAgainstVerdicts([device('d')], events, forecasts, today);
  const counts = (h: ReturnType<typeof one>) =>
    h.dates.map(({ outgrown, between, fitted, unknown }) => [outgrown, between, fitted, unknown]);

  it('judged good in May, outgrown in August: not by the 10 % date, between for the 50 %, by the 90 %', () => {
    const held = one([
      event('d', '2025-05-01', { verdict: 'good' }),
      event('d', '2025-08-01', { verdict: 'outgrown' }),
    ]);
    expect(counts(held)).toEqual([
      [0, 0, 1, 0],
      [0, 1, 0, 0],
      [1, 0, 0, 0],
    ]);
    expect(held.distanceDays).toEqual([31]);
    expect(held.visitGapDays).toBe(92);
    expect(held).toMatchObject({ devices: 1, judged: 1 });
    expect(held.dates[1]).toMatchObject({ share: 0, mostShare: 1 });
  });

  it('what is judged on the day on which it is changed is of the device as it was', () => {
    const day = '2025-08-01';
    const changed = { kind: 'adjusted', adjustment: 'flare', changeMm: 5, verdict: null } as const;
    const held = one([event('d', day, { verdict: 'outgrown' }), event('d', day, changed)]);
    expect(held).toMatchObject({ devices: 1, judged: 1, distanceDays: [31] });
  });

  it('still fitting in November counts as not outgrown by any date; never judged counts as unknown', () => {
    expect(counts(one([event('d', '2025-11-01', { verdict: 'tight' })]))).toEqual([
      [0, 0, 1, 0],
      [0, 0, 1, 0],
      [0, 0, 1, 0],
    ]);
    expect(counts(one([]))).toEqual([
      [0, 0, 0, 1],
      [0, 0, 0, 1],
      [0, 0, 0, 1],
    ]);
  });

  it('room made by hand, or a new one delivered, makes another device of it; a side bar within the forecast does not', () => {
    const outgrown = event('d', '2025-08-01', { verdict: 'outgrown' });
    const relief = event('d', '2025-03-01', { kind: 'adjusted', adjustment: 'relief', changeMm: 4 });
    expect(one([relief, outgrown]).judged).toBe(0);
    // With a forecast made after the change it counts as a device of its own; the one before is never judged.
    const anew = kept('d', { today: '2025-03-01', p10: '2025-05-01', p50: '2025-08-11', p90: '2025-11-01' });
    const held = one([relief, outgrown], [kept('d'), anew]);
    expect(held).toMatchObject({ devices: 2, judged: 1, distanceDays: [-10] });
    expect(one([event('d', '2025-03-01', { kind: 'delivered' }), outgrown]).judged).toBe(0);
    const bar = event('d', '2025-03-01', { kind: 'adjusted', adjustment: 'side-bar', changeMm: 6 });
    expect(one([bar, outgrown]).judged).toBe(1);
  });

  it('counts the first forecast made 30 days before its first date, and no later one', () => {
    const late = kept('d', { today: '2024-12-25', p10: '2025-01-20', p50: '2025-02-01', p90: '2025-02-10' });
    const newer = kept('d', { today: '2025-06-01', p10: '2025-08-15', p50: '2025-11-01', p90: null });
    const held = one([event('d', '2025-08-01', { verdict: 'outgrown' })], [newer, late, kept('d')]);
    expect(held.distanceDays).toEqual([31]);
  });

  it('does not count a date that has not passed, nor verdicts from before the forecast', () => {
    const held = one(
      [event('d', '2025-01-01', { verdict: 'outgrown' })],
      [kept('d', { p10: '2025-04-01', p50: '2026-01-01', p90: null })],
    );
    expect(counts(held)).toEqual([
      [0, 0, 0, 1],
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ]);
    expect(held.dates[1].share).toBeNull();
    expect(held.judged).toBe(0);
  });
});

describe('forecasts held against verdicts in a world where the forecasts are true', () => {
  // Outside truth: outgrown days are drawn from the very distribution whose 10, 50, 90 % points are forecast (normal,
  // mean 180 d, SD 50 d; z(0.9) = 1.2816). Visits every 60 days from a random first one. Fixed seed.
  const chance = randomStream(11);
  const n = 4000;
  const devices = Array.from({ length: n }, (_, i) => device(`d${i}`));
  const from = '2024-01-01';
  const dates = { p10: 180 - 64.08, p50: 180, p90: 180 + 64.08 };
  const on = (day: number) => addDaysIso(from, Math.floor(day));
  const events = devices.flatMap(({ id }) => {
    const outgrown = 180 + 50 * chance.normal();
    const out: DeviceEvent[] = [];
    for (let day = 1 + 60 * chance.uniform(); day < 700; day += 60) {
      const verdict = day >= outgrown ? ('outgrown' as const) : ('good' as const);
      out.push(event(id, on(day), { verdict }));
      if (verdict === 'outgrown') break;
    }
    return out;
  });
  const forecasts = devices.map(({ id }) =>
    kept(id, { today: from, p10: on(dates.p10), p50: on(dates.p50), p90: on(dates.p90) }),
  );
  const { dates: held } = heldAgainstVerdicts(devices, events, forecasts, today);

  it('the truth lies between the share judged by then and the share that may have been', () => {
    for (const { chance: p, share, mostShare, unknown, low, high } of held) {
      expect(unknown).toBe(0);
      // Three binomial standard errors.
      const slack = 3 * Math.sqrt((p * (1 - p)) / n);
      expect(share).toBeLessThan(p + slack);
      expect(mostShare).toBeGreaterThan(p - slack);
      expect(low).toBeLessThan(p);
      expect(high).toBeGreaterThan(p);
    }
  });

  it('verdicts at visits come late: at the even-chance date many are judged later who were outgrown by then', () => {
    expect(held[1].share).toBeLessThan(0.4);
  });
});
