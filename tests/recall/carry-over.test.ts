import { describe, expect, it } from 'vitest';
import { carryOver, type EarlierVisit, stateInNewList } from '../../src/recall/carry-over.js';
import type { RecallEntry } from '../../src/recall/contract.js';
import { type ClinicDays, clinicDays } from '../../src/recall/level/clinic-week.js';
import { weekReason } from '../../src/recall/level/week-reason.js';
import { exampleEntry } from './example-entry.js';

// The clinic's own rules, as src/recall/carry-over.ts states them: common practice, no source.
const today = '2026-06-10'; // a Wednesday
const thisWeek = '2026-06-08';
const nextWeek = '2026-06-15';
const shutOn = (isShut: ClinicDays['isShut']) => ({ ...clinicDays({}), isShut });
const open = clinicDays({});
const visit = (by: Partial<EarlierVisit> = {}): EarlierVisit => ({
  childId: 'c',
  action: 'cast',
  deviceIds: ['d'],
  plannedWeek: nextWeek,
  clinician: '',
  passedWeeks: [],
  state: 'to-call',
  appointment: null,
  ...by,
});
const entry = (by: Partial<RecallEntry> = {}) =>
  ({ childId: 'c', action: 'cast', deviceIds: ['d'], ...by }) as RecallEntry;

describe('carryOver', () => {
  it('keeps the week of a visit nobody objected to, and forgets one that is over', () => {
    expect(carryOver(visit(), today, open)).toEqual({
      previousWeek: nextWeek,
      told: false,
      bookedWeek: null,
      passedWeeks: [],
    });
    expect(carryOver(visit({ state: 'called' }), today, open).told).toBe(true);
    expect(carryOver(visit({ plannedWeek: '2026-06-01' }), today, open).previousWeek).toBeNull();
    expect(carryOver(visit({ state: 'done' }), today, open).previousWeek).toBeNull();
  });

  it.each(['declined', 'did-not-come'] as const)('never offers the week again to one who %s', (state) => {
    const { previousWeek, passedWeeks } = carryOver(visit({ state }), today, open);
    expect(previousWeek).toBeNull();
    expect(passedWeeks).toEqual([{ week: nextWeek, why: state }]);
  });

  it('holds an appointment, until its day has passed with nothing recorded', () => {
    const booked = visit({ state: 'booked', appointment: '2026-06-11', plannedWeek: nextWeek });
    expect(carryOver(booked, today, open).bookedWeek).toBe(thisWeek);
    expect(carryOver(booked, '2026-06-12', open)).toEqual({
      previousWeek: null,
      told: false,
      bookedWeek: null,
      passedWeeks: [{ week: thisWeek, why: 'nothing-recorded' }],
    });
    // Booked without a day: the planned week, which ends with Sunday.
    const week = visit({ state: 'booked', plannedWeek: thisWeek });
    expect(carryOver(week, '2026-06-14', open).bookedWeek).toBe(thisWeek);
    expect(carryOver(week, '2026-06-15', open).passedWeeks).toHaveLength(1);
  });

  it('lets go of an appointment the clinic or its clinician cannot keep, and looks in the same week first', () => {
    const booked = visit({ state: 'booked', appointment: '2026-06-17', clinician: 'A' });
    const closed = carryOver(
      booked,
      today,
      shutOn((day) => day === '2026-06-17'),
    );
    expect(closed).toEqual({
      previousWeek: nextWeek,
      told: true,
      bookedWeek: null,
      passedWeeks: [{ week: nextWeek, why: 'clinic-cancelled' }],
    });
    expect(
      carryOver(
        booked,
        today,
        shutOn((_, who) => who === 'A'),
      ).bookedWeek,
    ).toBeNull();
    expect(
      carryOver(
        booked,
        today,
        shutOn((_, who) => who === 'B'),
      ).bookedWeek,
    ).toBe(nextWeek);
    // Booked anew in that week, it stands.
    const anew = { ...booked, appointment: '2026-06-18', passedWeeks: closed.passedWeeks };
    expect(
      carryOver(
        anew,
        today,
        shutOn((day) => day === '2026-06-17'),
      ),
    ).toMatchObject({
      bookedWeek: nextWeek,
      passedWeeks: [],
    });
    // Closed from Monday to Friday: a clinic that casts on Saturday still has a day of that week.
    const shut = { clinicClosures: [{ from: '2026-06-15', to: '2026-06-19' }] };
    const saturday = [{ id: 'a', slotsByWeekday: [{ weekday: 6, slots: 2 }] }];
    const called = visit({ state: 'called' });
    expect(carryOver(called, today, clinicDays(shut)).passedWeeks).toHaveLength(1);
    expect(carryOver(called, today, clinicDays({ ...shut, clinicians: saturday })).passedWeeks).toEqual([]);
  });

  it('remembers weeks that came to nothing for half a year', () => {
    const passedWeeks = [
      { week: '2025-11-03', why: 'did-not-come' as const },
      { week: '2026-05-04', why: 'declined' as const },
    ];
    expect(carryOver(visit({ passedWeeks }), today, open).passedWeeks).toEqual([passedWeeks[1]]);
  });
});

describe('stateInNewList', () => {
  it('asks for a new call after a week that came to nothing, and after a need that was met', () => {
    const passedWeeks = [{ week: nextWeek, why: 'declined' as const }];
    expect(stateInNewList(visit({ state: 'declined' }), entry({ passedWeeks }))).toBe('to-call');
    expect(stateInNewList(visit({ state: 'done' }), entry())).toBe('to-call');
    // Declined while the new list was being made: it does not know of it yet.
    expect(stateInNewList(visit({ state: 'declined' }), entry())).toBe('declined');
  });

  it('keeps a call for the same thing, and an appointment for anything', () => {
    expect(stateInNewList(visit({ state: 'called' }), entry())).toBe('called');
    expect(stateInNewList(visit({ state: 'called' }), entry({ action: 'measure' }))).toBe('to-call');
    expect(stateInNewList(visit({ state: 'booked' }), entry({ action: 'measure' }))).toBe('booked');
  });
});

it('the scheduler reads what came of the weeks before, and what else the visit is for', () => {
  const entry = exampleEntry({ deviceIds: ['d1'] });
  const told = (visit: object, passed: Parameters<typeof weekReason>[2] = [], from: string | null = null) =>
    weekReason(entry, { why: 'Due.', childIds: ['c'], deviceIds: ['d1'], ...visit } as never, passed, from);
  expect(told({})).toBe('Due.');
  expect(told({ overtime: true })).toBe('Due. There is no usual slot left that week: it needs one more.');
  expect(told({ childIds: ['c', 'e'] })).toBe('Due. One visit with a brother or sister.');
  expect(told({ deviceIds: ['d1', 'd2'] })).toBe('Due. One visit with another device of the child.');
  const missed = (week: string) => ({ week, why: 'did-not-come' as const });
  expect(told({}, [missed('2026-06-01'), { week: '2026-06-08', why: 'declined' }], '2026-06-08')).toBe(
    'The family could not come in the week of 8 June 2026. Due.',
  );
  expect(told({}, [missed('2026-06-01'), missed('2026-06-08')], '2026-06-15')).toBe(
    'Not brought in the week of 8 June 2026. Not brought 2 times in half a year: ask what would help the family to ' +
      'come. Was planned for the week of 15 June 2026. Due.',
  );
});
