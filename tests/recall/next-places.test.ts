import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/recall/contract.js';
import { clinicCapacity } from '../../src/recall/level/clinic-capacity.js';
import { nextPlaces, placesOn } from '../../src/recall/level/next-places.js';
import { insideWindow } from '../../src/recall/level/week-costs.js';
import { ringAgainOf, ringAgainOn } from '../../src/recall/ring-again.js';
import { dayIn } from '../../src/service/clock.js';

// 2026-11-27 is a Friday. Common practice, no source.
const clinic = { clinicians: [{ id: 'a', slotsPerWeek: 10 }] };

describe('places of today and the next working day', () => {
  it('counts what is booked, and passes over the weekend', () => {
    expect(nextPlaces(clinic, ['2026-11-27', '2026-11-27', '2026-11-30'], '2026-11-27')).toEqual([
      { day: '2026-11-27', places: 2, booked: 2, free: 0 },
      { day: '2026-11-30', places: 2, booked: 1, free: 1 },
    ]);
  });

  it('has none on a closed day, a weekend, or while whoever casts is away', () => {
    const closed = { ...clinic, clinicClosures: [{ from: '2026-11-27', to: '2026-12-04' }] };
    expect(nextPlaces(closed, [], '2026-11-27')).toEqual([]);
    expect(placesOn(clinic, '2026-11-28')).toBe(0);
    const away = [{ id: 'a', slotsPerWeek: 10, away: [{ from: '2026-11-27', to: '2026-11-27' }] }];
    expect(placesOn({ clinicians: away }, '2026-11-27')).toBe(0);
  });
});

describe('places of the weeks ahead', () => {
  it('lie on the weekday named, none today, none while that clinician is away', () => {
    const away = [{ from: '2026-12-08', to: '2026-12-08' }];
    const tuesdays = { id: 'a', slotsByWeekday: [{ weekday: 2, slots: 3 }], away };
    // Asked on Tuesday 2026-11-24: the one a week later is the first; the one of 8 December falls out.
    const { sessions, weeks } = clinicCapacity({ clinicians: [tuesdays] }, '2026-11-24', 4);
    expect(sessions.map((s) => [weeks[s.week], s.weekday, s.slots])).toEqual([
      ['2026-11-30', 2, 3],
      ['2026-12-14', 2, 3],
    ]);
    expect(clinicCapacity({ clinicians: [tuesdays] }, '2026-11-23', 1).sessions).toHaveLength(1);
  });

  it('of a whole week are fewer by the days that clinician is away', () => {
    const away = [{ from: '2026-12-01', to: '2026-12-04' }];
    const { sessions } = clinicCapacity(
      { clinicians: [{ id: 'a', slotsPerWeek: 10, away }] },
      '2026-11-29',
      2,
    );
    expect(sessions.map(({ week, slots }) => [week, slots])).toEqual([[1, 2]]);
  });

  // Sunday to Thursday with Friday as the day of rest: common practice, no source.
  it('go by the days the clinic works, which a Sunday of casting moves and a Saturday makes more', () => {
    const works = (weekday: number, away: { from: string; to: string }[] = []) => ({
      clinicians: [{ id: 'a', slotsPerWeek: 10, slotsByWeekday: [{ weekday, slots: 1 }], away }],
    });
    // Away from Monday to Thursday: with Sunday one of five days is left, not Friday's.
    const away = [{ from: '2026-11-30', to: '2026-12-03' }];
    const { sessions, lastDay } = clinicCapacity(works(7, away), '2026-11-29', 2);
    expect(sessions.map(({ week, weekday, slots }) => [week, weekday, slots])).toEqual([
      [1, null, 2],
      [1, 7, 1],
    ]);
    expect(lastDay).toBe(6);
    expect([4, 5, 6].map((d) => placesOn(works(7), `2026-12-0${d}`))).toEqual([0, 0, 3]);
    expect([4, 5, 6].map((d) => placesOn(works(6), `2026-12-0${d}`))).toEqual([2, 3, 0]);
    expect(clinicCapacity(works(6), '2026-11-29', 2).lastDay).toBe(5);
    expect(clinicCapacity({}, '2026-11-29', 2).lastDay).toBe(4);
  });

  it('a week is in time only when its last day of work is', () => {
    const on = (latestSafe: string) => ({ latestSafe, worthIt: null, notInWeeks: [], parts: [] }) as never;
    const inTime = (lastDay: number, latestSafe: string) =>
      insideWindow(on(latestSafe), { weeks: ['2026-11-30'], lastDay }, '2026-11-30');
    expect([inTime(4, '2026-12-04'), inTime(4, '2026-12-03')]).toEqual([true, false]);
    expect([inTime(6, '2026-12-06'), inTime(6, '2026-12-05')]).toEqual([true, false]);
  });
});

describe('ringAgainOn', () => {
  it('is two working days after the message', () => {
    expect(ringAgainOn('2026-11-25', {})).toBe('2026-11-27');
    expect(ringAgainOn('2026-11-27', {})).toBe('2026-12-01');
  });
  it('passes over closed days and counts the days of the clinic’s own week', () => {
    const closed = { clinicClosures: [{ from: '2026-11-30', to: '2026-12-04' }] };
    expect(ringAgainOn('2026-11-27', closed)).toBe('2026-12-08');
    const casting = (...weekdays: number[]) => ({
      clinicians: [{ id: 'a', slotsByWeekday: weekdays.map((weekday) => ({ weekday, slots: 2 })) }],
    });
    // Few days of casting are not few days of the office; a Saturday of casting is one more.
    expect(ringAgainOn('2026-11-25', casting(2))).toBe('2026-11-27');
    expect(ringAgainOn('2026-11-26', casting(6))).toBe('2026-11-28');
    // Sunday to Thursday: Friday is the day of rest, unless it is cast on too.
    expect(ringAgainOn('2026-11-26', casting(7, 1, 2))).toBe('2026-11-30');
    expect(ringAgainOn('2026-11-26', casting(7, 5))).toBe('2026-11-29');
    // A clinic that is closed for good: the search ends.
    expect(ringAgainOn('2026-11-25', { clinicClosures: [{ from: '2026-01-01', to: '2099-12-31' }] })).toBe(
      '2027-12-30',
    );
  });
  // IANA time zones as Intl has them: the moment is Thursday in Greenwich, Friday in Auckland.
  it('counts from the day the message was left where the clinic is, and only after a message', () => {
    const stateAt = '2026-11-26T19:05:00Z';
    const there = (moment: string) => dayIn('Pacific/Auckland')(new Date(moment));
    const again = (state: 'left-message' | 'called', action: Action) =>
      ringAgainOf({ state, stateAt, entry: { action } }, there, {});
    expect(again('left-message', 'cast')).toBe('2026-12-01');
    expect(again('called', 'cast')).toBeNull();
    // What is rung today is rung again today.
    for (const action of ['see-now', 'repair'] as const)
      expect(again('left-message', action)).toBe('2026-11-27');
  });
});
