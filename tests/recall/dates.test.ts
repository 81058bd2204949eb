import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assessChild } from '../../src/forecast/assess-child.js';
import { acceptedChance } from '../../src/recall/decide/accepted-chance.js';
import { beyondUseChance } from '../../src/recall/decide/beyond-use-chance.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { castBy } from '../../src/recall/decide/cast-by.js';
import { recallSettings } from '../../src/recall/decide/recall-settings.js';
import { addDaysIso, dayNumber } from '../../src/records/dates.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { buildChild, contextOn } from '../forecast/build-record.js';
import { rampForecast } from './build-a-clinic.js';

const TODAY = '2026-11-25';
const girl = (more: Record<string, unknown> = {}, last = 205) =>
  buildChild(TODAY, 8, { sex: 'female', ...more })
    .series('foot_length', 'left', [
      [15, 195],
      [9, 200],
      [1, last],
    ])
    .device('solid-afo', 'left', 9);

function decidedOn(built: ReturnType<typeof girl>, today: string, settings = {}) {
  const assessment = assessChild(built.record, contextOn(today, { draws: 300 }));
  const list = buildRecallList([assessment], [built.record], (f) => estimateTurnaround([], f, TODAY), {
    today,
    rules: loadRules(),
    settings,
  });
  return [...list.entries, ...list.notDue][0].devices[0];
}

describe('the day to cast by', () => {
  it('stays where it is when only today moves, to the day and to the last bit of the chances', () => {
    const built = girl();
    const first = decidedOn(built, TODAY);
    expect(first.castBy).not.toBeNull();
    for (const days of [1, 6, 30, 90]) {
      const later = decidedOn(built, addDaysIso(TODAY, days));
      expect(later.castBy).toBe(first.castBy);
      expect(later.forecast?.dates).toEqual(first.forecast?.dates);
      expect(later.forecast?.probabilityOutgrown).toEqual(first.forecast?.probabilityOutgrown);
    }
  });

  it('the same with a verdict and an adjustment in the record', () => {
    const built = girl()
      .event('verdict', 2, { verdict: 'good' })
      .event('adjusted', 2, { measure: 'foot_breadth', changeMm: 2, adjustment: 'flare' });
    expect(decidedOn(built, addDaysIso(TODAY, 41)).castBy).toBe(decidedOn(built, TODAY).castBy);
  });

  it('is earlier for a larger foot and where the skin cannot warn', () => {
    const usual = decidedOn(girl(), TODAY).castBy!;
    expect(decidedOn(girl({ insensateSkin: true }), TODAY).castBy! < usual).toBe(true);
    expect(decidedOn(girl({}, 207), TODAY).castBy! < usual).toBe(true);
  });

  const ramp = fc.tuple(fc.integer({ min: -200, max: 300 }), fc.integer({ min: 1, max: 400 }));
  const of = (from: number, length: number) => beyondUseChance(rampForecast('a/d1', from, from + length))!;

  it('is never later than the day of 50 %, whatever is accepted', () => {
    fc.assert(
      fc.property(
        ramp,
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.integer({ min: 0, max: 120 }),
        ([from, length], accepted, harm, wait) => {
          const chance = of(from, length);
          const day = castBy(chance, acceptedChance(harm, { acceptedChance: accepted }), wait, null);
          const half = chance.dayOf(0.5);
          if (day !== null && half !== null) expect(dayNumber(day)).toBeLessThanOrEqual(half);
          expect(castBy(chance, 0.5 + accepted, wait, null)).toBe(castBy(chance, 0.5, wait, null));
        },
      ),
    );
  });

  it('is earlier with a longer turnaround, a lower accepted chance, a greater harm and an earlier chance', () => {
    fc.assert(
      fc.property(
        ramp,
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 0, max: 60 }),
        ([from, length], p, q, harm, wait, more) => {
          const chance = of(from, length);
          const day = (c: typeof chance, a: number, h: number, w: number) =>
            castBy(c, acceptedChance(h, { acceptedChance: a }), w, null) ?? '9999-12-31';
          const [low, high] = [Math.min(p, q), Math.max(p, q)];
          const base = day(chance, high, harm, wait);
          expect(day(chance, high, harm, wait + more) <= base).toBe(true);
          expect(day(chance, low, harm, wait) <= base).toBe(true);
          expect(day(chance, high, harm + more / 10, wait) <= base).toBe(true);
          expect(day(of(from - more, length), high, harm, wait) <= base).toBe(true);
        },
      ),
    );
  });

  it('accepts 33, 20 and 14 % at a harm of 1, 2 and 3 (the critical ratio 0.5 / (0.5 + h))', () => {
    const settings = { acceptedChance: 1 / 3 };
    expect([1, 2, 3].map((h) => Math.round(100 * acceptedChance(h, settings)))).toEqual([33, 20, 14]);
  });
});

// Common practice, no source: a clinic that set nothing plans by these.
it('a clinic that has set nothing plans by the figures it is told', () => {
  expect(recallSettings.parse({})).toEqual({
    acceptedChance: 1 / 3,
    harmInsensate: 3,
    harmADay: {},
    fitWaitDays: 0,
    aheadDays: 35,
    combineWithinDays: 56,
    wearReviewMonths: 12,
    eligibleAfterMonths: {},
  });
});
