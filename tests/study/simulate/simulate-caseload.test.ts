import { describe, expect, it } from 'vitest';
import { addDaysIso, dayNumber, isoDate } from '../../../src/records/dates.js';
import type { SimulatedChild, SimulationForecaster, World } from '../../../src/study/simulate/contract.js';
import { replacementNeed } from '../../../src/study/simulate/replacement-need.js';
import { simulateCaseload } from '../../../src/study/simulate/simulate-caseload.js';
import { bootstrap, summarisePolicy } from '../../../src/study/simulate/summarise-policies.js';

const start = '2025-01-06';
const world: World = { start, years: 3, slotsPerWeek: 2, jobsPerWeek: 2, missedShare: 0, seed: 1 };
/** Growth in a straight line: 30 mm a year, 15 mm allowed, so a device lasts 182.6 days from its cast. */
const children = Array.from(
  { length: 12 },
  (_, i): SimulatedChild => ({
    id: `s${i}`,
    insensateSkin: false,
    allowanceMm: 15,
    trueSize: (day) => 500 + (30 * (day - dayNumber(start))) / 365.25,
  }),
);
const exactLook = (_: SimulatedChild, __: number, roomMm: number) => roomMm;
/** A forecaster that knows straight lines: chance 0 before the true day, 1 from it on. */
const clairvoyant: SimulationForecaster = (_, __, device, today) => {
  const days = Array.from({ length: 80 }, (___, w) => today + 7 * w);
  const outgrown = device.castDay + 182.6;
  return { dates: days.map(isoDate), probabilityOutgrown: days.map((d) => (d > outgrown ? 1 : 0)) };
};

describe('simulateCaseload', () => {
  it('costs what arithmetic says under fixed review of straight-line growth', async () => {
    const outcome = await simulateCaseload(
      children,
      { kind: 'fixed', months: 3, castAheadShare: 0.5 },
      world,
      clairvoyant,
      exactLook,
    );
    const s = summarisePolicy(outcome, 1);
    // By hand: a visit every 13 weeks is 4.01 a year; growth reaches 7.5 mm in 91.3 days, so every other 91-day visit
    // (at 91 days 7.47 mm is short of it; 182 days) or every visit casts: between 2 and 4 casts a year.
    expect(s.visits.mean).toBeGreaterThan(3.6);
    expect(s.visits.mean).toBeLessThan(4.1);
    expect(s.casts.mean).toBeGreaterThan(1.7);
    expect(s.casts.mean).toBeLessThan(4.1);
  });

  it('sees nobody outgrown for long when the forecast is right, with fewer visits than fixed review', async () => {
    const forecast = summarisePolicy(
      await simulateCaseload(children, { kind: 'forecast', levelled: false }, world, clairvoyant, exactLook),
      1,
    );
    const fixed = summarisePolicy(
      await simulateCaseload(
        children,
        { kind: 'fixed', months: 3, castAheadShare: 0.75 },
        world,
        clairvoyant,
        exactLook,
      ),
      1,
    );
    expect(forecast.daysOutgrown.mean).toBeLessThan(fixed.daysOutgrown.mean);
    expect(forecast.visits.mean).toBeLessThan(fixed.visits.mean);
  });

  it('levelling leaves fewer weeks over the slots', async () => {
    const busy = { ...world, years: 2, slotsPerWeek: 1 };
    const on = async (levelled: boolean) =>
      summarisePolicy(
        await simulateCaseload(children, { kind: 'forecast', levelled }, busy, clairvoyant, exactLook),
        1,
      );
    const [loose, levelled] = [await on(false), await on(true)];
    expect(levelled.overtimeWeeks.mean).toBeLessThan(loose.overtimeWeeks.mean);
  });

  it('is reproducible, and asks the forecaster for nothing later than the day', async () => {
    const asked: { seen: readonly number[]; today: number }[] = [];
    const spy: SimulationForecaster = (c, seen, device, today) => {
      asked.push({ seen: [...seen], today });
      return clairvoyant(c, seen, device, today);
    };
    const w = { ...world, years: 2, missedShare: 0.2 };
    const a = await simulateCaseload(children, { kind: 'forecast', levelled: true }, w, spy, exactLook);
    const b = await simulateCaseload(
      children,
      { kind: 'forecast', levelled: true },
      w,
      clairvoyant,
      exactLook,
    );
    expect(a).toEqual(b);
    expect(a.children.reduce((s, c) => s + c.missed, 0)).toBeGreaterThan(0);
    for (const { seen, today } of asked) expect(Math.max(...seen)).toBeLessThanOrEqual(today);
    expect(asked.every((x) => x.today <= dayNumber(addDaysIso(start, 3 * 366)))).toBe(true);
  });
});

describe('replacementNeed', () => {
  it('is growth over allowance', () => {
    // By hand: 30 mm a year over 15 mm is 2 a year; looked at weekly, a device lasts 27 weeks, so 52/27 = 1.93.
    const need = replacementNeed(children, { start, years: 3 });
    expect(need.reduce((a, b) => a + b) / 3).toBeCloseTo(52 / 27, 0);
    for (const year of need) expect([1, 2]).toContain(year);
  });
});

describe('bootstrap', () => {
  it('has about the textbook width: 1.96 sd/sqrt(n) each way', () => {
    const values = Array.from({ length: 400 }, (_, i) => i % 20);
    const { mean, low, high } = bootstrap(values, 1);
    const half = (1.96 * Math.sqrt((20 ** 2 - 1) / 12)) / 20;
    expect(mean).toBe(9.5);
    expect(high - low).toBeGreaterThan(1.7 * half);
    expect(high - low).toBeLessThan(2.3 * half);
  });
});
