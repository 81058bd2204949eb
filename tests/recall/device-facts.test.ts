/** What a decision rests on, each reckoned by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DeviceForecast } from '../../src/forecast/contract.js';
import { beyondUseChance } from '../../src/recall/decide/beyond-use-chance.js';
import { figureChance, lookAt } from '../../src/recall/decide/check-figure.js';
import { chanceDueBy, dueByChance } from '../../src/recall/decide/due-by-chance.js';
import { partDue } from '../../src/recall/decide/part-due.js';
import { roomByReadings, roomsByReadings } from '../../src/recall/decide/room-by-readings.js';
import { successorOf } from '../../src/recall/decide/successor-of.js';
import { addDaysIso, dayNumber } from '../../src/records/dates.js';
import { measurementRecord } from '../../src/records/records.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { rampForecast, testRecord, today } from './build-a-clinic.js';

const day = (days: number) => addDaysIso(today, days);
const rules = loadRules();

describe('the chance of being beyond use', () => {
  const chance = beyondUseChance({
    dates: [0, 10, 20].map(day),
    probabilityOutgrown: [0.2, 0.4, 0.8],
  })!;
  const at = (days: number) => chance.at(dayNumber(day(days)));
  it('is linear between its dates, none before them and the last one after', () => {
    expect([-1, 0, 5, 10, 15, 20, 99].map(at)).toEqual([
      0, 0.2, 0.30000000000000004, 0.4, 0.6000000000000001, 0.8, 0.8,
    ]);
  });
  it('is reached on the first whole day', () => {
    const reached = (p: number) => {
      const found = chance.dayOf(p);
      return found === null ? null : found - dayNumber(today);
    };
    expect([0.1, 0.2, 0.3, 0.41, 0.8, 0.81].map(reached)).toEqual([0, 0, 5, 11, 20, null]);
  });
  it('adds up to days: 0.3 x 10 until the tenth, 0.6 x 10 more until the twentieth', () => {
    const before = (days: number) => chance.daysBeyondUseBefore(dayNumber(day(days)));
    expect([-5, 0, 10, 20, 30].map(before).map((d) => Math.round(d * 1e9) / 1e9)).toEqual([0, 0, 3, 9, 17]);
  });
});

describe('what is due by a chance', () => {
  /** 5 % on the first day, 10 % on the tenth, and so on by ten days; nothing beyond 50 %. */
  const days = Array.from({ length: 19 }, (_, i) => (i < 10 ? day(10 * i) : null));
  it('falls between the days given in proportion, and on none past the last', () => {
    expect([0.05, 0.1, 0.125, 0.33, 0.5, 0.55].map((p) => dueByChance(days, p))).toEqual([
      day(0),
      day(10),
      day(15),
      day(56),
      day(90),
      null,
    ]);
  });
  it('and the chance by a day is its inverse', () => {
    expect([-1, 0, 15, 90, 400].map((d) => Math.round(1e9 * chanceDueBy(days, day(d))) / 1e9)).toEqual([
      0, 0.05, 0.125, 0.5, 0.5,
    ]);
  });
  it('a part is ordered its own time in the workshop before: 21 days x exp(0.842 x 0.25) are 26, 5 days are 7', () => {
    const due = (shift: number) => Array.from({ length: 19 }, (_, i) => day(shift + 10 * i));
    const parts = [
      { part: 'straps', days: due(100) },
      { part: 'foot-section', days: due(90) },
    ];
    const forecast = { ...rampForecast('a/d1', 0, 100), parts } as unknown as DeviceForecast;
    const kafo = rules.get('kafo')!;
    // 10 % on the second day given, 50 % on the tenth.
    expect(partDue(kafo, forecast, 0.1, [], day(0))).toEqual({
      part: 'foot-section',
      by: day(100 - 26),
      spentOn: day(180),
    });
    const straps = { ...forecast, parts: parts.slice(0, 1) } as unknown as DeviceForecast;
    expect(partDue(kafo, straps, 0.1, [], day(0))).toEqual({
      part: 'straps',
      by: day(110 - 7),
      spentOn: day(190),
    });
    expect(partDue(kafo, { ...forecast, parts: [] }, 0.1, [], day(0))).toBeNull();
  });
});

describe('what took a worn device’s place', () => {
  const of = (...next: Record<string, unknown>[]) => {
    const worn = { castDate: day(-200), fittedDate: day(-180) };
    const record = testRecord({
      id: 'a',
      devices: [
        { id: 'a/d1', ...worn },
        ...next.map((d, i) => ({ id: `a/d${i + 2}`, ...worn, ...d })),
      ] as never,
    });
    return successorOf(record.devices[0], record, today);
  };
  const newer = { castDate: day(-30), fittedDate: day(-5) };
  it('is the newer one of its kind and side once it is fitted', () => {
    expect(of(newer)).toEqual({ fittedOn: day(-5), linked: false });
    expect(of({ ...newer, side: 'both' })).toEqual({ fittedOn: day(-5), linked: false });
    for (const other of [
      { castDate: day(-300), fittedDate: day(-280) },
      { ...newer, fittedDate: null },
      { ...newer, fittedDate: day(1) },
      { ...newer, side: 'right' },
      { ...newer, family: 'foot-orthosis' },
      { ...newer, status: 'ordered' },
    ])
      expect(of(other), JSON.stringify(other)).toBeNull();
  });
  it('is the one cast for it, whatever its kind', () => {
    const linked = { ...newer, family: 'ground-reaction-afo', replaces: 'a/d1' };
    expect(of(newer, linked)).toEqual({ fittedOn: day(-5), linked: true });
  });
});

describe('the room that readings leave', () => {
  const reading = (days: number, value: number, side = 'left') =>
    measurementRecord.parse({
      id: `${side}${days}`,
      childId: 'a',
      measure: 'foot_length',
      side,
      value,
      date: day(days),
    });
  const left = (...measurements: ReturnType<typeof reading>[]) => {
    const devices = [{ id: 'a/d1', allowancesMm: { foot_length: 12 } }];
    const record = { ...testRecord({ id: 'a', devices }), measurements };
    const room = { series: { measure: 'foot_length', side: 'left' }, paceMmAYear: 36.525 };
    const forecast = { ...rampForecast('a/d1', 500, 700), room: [room] } as unknown as DeviceForecast;
    const [device] = record.devices;
    const rooms = roomsByReadings(rules.get('solid-afo')!, device, record, device.castDate, today);
    return roomByReadings(forecast, rooms, today, 40)?.leftMm ?? null;
  };
  it('is the allowance less what was read and what grows until the next is fitted', () => {
    // Cast 200 days ago. 12 - (176 - 170) - 36.525 x (10 + 40) / 365.25.
    expect(left(reading(-200, 170), reading(-10, 176))).toBeCloseTo(1, 10);
    expect(left(reading(-190, 170), reading(-10, 176), reading(-10, 190, 'right'))).toBeCloseTo(1, 10);
    expect(left(reading(-200, 170, 'right'), reading(-10, 176, 'right'))).toBeCloseTo(1, 10);
  });
  it('is not known without a reading about the cast and one of the last month', () => {
    expect(left(reading(-168, 170), reading(-10, 176))).toBeNull();
    expect(left(reading(-200, 170), reading(-32, 176))).toBeNull();
    expect(left(reading(-200, 170), reading(1, 176))).toBeNull();
    expect(left(reading(-10, 176))).toBeNull();
  });
});

describe('the figure that decides at the bench', () => {
  const roomed = (roomMm: number, sd: number, pace: number, paceSd: number) =>
    ({
      drivers: [],
      room: [
        {
          series: { measure: 'foot_length', side: 'left' },
          roomMm,
          roomLowMm: roomMm - 1.2816 * sd,
          roomHighMm: roomMm + 1.2816 * sd,
          paceMmAYear: pace,
          paceSdMmAYear: paceSd,
        },
      ],
    }) as unknown as DeviceForecast;

  it('is asked for only where the look may find either: 5 to 95 %', () =>
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 12, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 2, max: 30, noNaN: true }),
        fc.double({ min: 0.14, max: 0.33, noNaN: true }),
        fc.integer({ min: 42, max: 183 }),
        fc.integer({ min: 0, max: 35 }),
        (roomMm, sd, pace, accepted, reviewDays, ahead) => {
          const forecast = roomed(roomMm, sd, pace, pace / 3);
          const { figure, foregone } = lookAt(forecast, accepted, today, day(ahead), reviewDays, 30);
          expect(figure === null).toBe(foregone !== null);
          if (!figure) return;
          const chance = figureChance(forecast, figure, today, day(ahead)) ?? 0.5;
          expect(chance).toBeGreaterThanOrEqual(0.05);
          expect(chance).toBeLessThanOrEqual(0.95);
        },
      ),
    ));

  it('is of a sooner look where the usual one would find too little for sure, and none with no room at all', () => {
    // 5 mm, 20 a year and no doubt of the pace: 15 weeks and a workshop of 30 days need 8 mm, four weeks 4 mm.
    const { figure } = lookAt(roomed(5, 1, 20, 0), 0.33, today, today, 105, 30);
    expect(figure?.castIfRoomAtMostMm).toBeLessThan(8);
    expect(figure?.elseNotBefore && figure.elseNotBefore < day(105)).toBe(true);
    expect(lookAt(roomed(0, 0.5, 20, 0), 0.33, today, today, 105, 30)).toEqual({
      figure: null,
      foregone: 'cast',
    });
    expect(lookAt(roomed(12, 0.5, 10, 0), 0.33, today, today, 105, 30).foregone).toBe('leave');
  });
});
