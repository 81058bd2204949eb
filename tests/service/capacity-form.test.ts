import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { capacityForm, readCapacity } from '../../src/pages/clinic/capacity-form.js';
import { addDaysIso } from '../../src/records/dates.js';
import type { ClinicCapacitySettings } from '../../src/store/contract.js';

const day = fc.integer({ min: 0, max: 800 }).map((d) => addDaysIso('2026-01-01', d));
const span = fc
  .tuple(day, fc.integer({ min: 0, max: 60 }))
  .map(([from, n]) => ({ from, to: addDaysIso(from, n) }));
const word = fc.stringMatching(/^[A-Za-z][A-Za-z ]{0,20}[a-z]$/);
const capacity: fc.Arbitrary<ClinicCapacitySettings> = fc.record({
  castingSlotsPerWeek: fc.integer({ min: 0, max: 1000 }),
  clinicians: fc.uniqueArray(
    fc.record({
      name: word.map((w) => w.trim()),
      slotsPerWeek: fc.integer({ min: 0, max: 1000 }),
      slotsByWeekday: fc
        .uniqueArray(
          fc.record({ weekday: fc.integer({ min: 1, max: 7 }), slots: fc.integer({ min: 1, max: 100 }) }),
          { selector: (s) => s.weekday },
        )
        .map((all) => all.toSorted((a, b) => a.weekday - b.weekday)),
      away: fc.array(span, { maxLength: 3 }),
    }),
    { selector: (c) => c.name, maxLength: 5 },
  ),
  workshop: fc.array(
    fc.record({
      families: fc.uniqueArray(fc.constantFrom('solid-afo', 'kafo', 'foot-orthosis')),
      jobsPerWeek: fc.integer({ min: 0, max: 5000 }),
    }),
    { maxLength: 4 },
  ),
  holidays: fc.array(
    fc.tuple(span, word).map(([s, name]) => ({ ...s, name: name.trim().replace(/\s+/g, ' ') })),
    { maxLength: 4 },
  ),
  closures: fc.uniqueArray(day, { maxLength: 30 }).map((days) => days.toSorted()),
  workshopClosures: fc.array(span, { maxLength: 4 }),
});

describe('the form of the clinic’s weeks', () => {
  it('gives back what it shows', () => {
    fc.assert(
      fc.property(capacity, (c) => {
        expect(readCapacity(capacityForm(c))).toEqual(c);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it.each([
    [{ 'closures-0-from': '2026-02-30' }, /Clinic closed, row 1: '2026-02-30/],
    [{ 'holidays-1-name': 'sometime' }, /School holidays, row 2: ''.*first day/],
    [{ 'closures-0-from': '2026-03-02', 'closures-0-to': '2026-03-01' }, /not before the first/],
    [{ 'clinician-0-name': 'A', 'clinician-0-away-0-to': 'x' }, /A away, row 1/],
    [{ 'clinician-0-name': 'A', 'clinician-0-2': 'two' }, /Slots of A, day 2: 'two'/],
    [{ 'clinician-0-any': '4' }, /Clinician, row 1: name/],
    [{ 'workshop-0-family-kafo': 'yes' }, /Workshop, row 1: jobs a week/],
    [{ 'workshop-0-jobs': '3', 'workshop-0-family-boot': 'yes' }, /workshop 0 families/],
  ])('names row and value of what it cannot take: %j', (fields, message) => {
    expect(() => readCapacity({ castingSlotsPerWeek: '4', ...fields })).toThrow(message);
  });

  it('names everything that has to be mended at once', () => {
    const form = {
      castingSlotsPerWeek: 'some',
      'closures-0-from': '2026-02-30',
      'closures-1-from': 'soon',
      'clinician-0-any': '4',
    };
    for (const part of [/Casting slots a week: 'some'/, /row 1: '2026-02-30/, /row 2: 'soon/, /row 1: name/])
      expect(() => readCapacity(form)).toThrow(part);
  });
});
