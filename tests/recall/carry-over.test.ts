import { describe, expect, it } from 'vitest';
import { carryOver, type EarlierVisit, stateInNewList } from '../../src/recall/carry-over.js';
import type { RecallEntry } from '../../src/recall/contract.js';

// The clinic's own rules, as src/recall/carry-over.ts states them: common practice, no source.
const today = '2026-06-10'; // a Wednesday
const thisWeek = '2026-06-08';
const nextWeek = '2026-06-15';
const open = () => false;
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
    const closed = carryOver(booked, today, (day) => day === '2026-06-17');
    expect(closed).toEqual({
      previousWeek: nextWeek,
      told: true,
      bookedWeek: null,
      passedWeeks: [{ week: nextWeek, why: 'clinic-cancelled' }],
    });
    expect(carryOver(booked, today, (_, who) => who === 'A').bookedWeek).toBeNull();
    expect(carryOver(booked, today, (_, who) => who === 'B').bookedWeek).toBe(nextWeek);
    // Booked anew in that week, it stands.
    const anew = { ...booked, appointment: '2026-06-18', passedWeeks: closed.passedWeeks };
    expect(carryOver(anew, today, (day) => day === '2026-06-17')).toMatchObject({
      bookedWeek: nextWeek,
      passedWeeks: [],
    });
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
