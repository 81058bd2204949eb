/** What a visit takes into the planning of the weeks: whose it is, when it may be, what a day of waiting costs. */
import { describe, expect, it } from 'vitest';
import type { RecallEntry } from '../../src/recall/contract.js';
import { recallSettings } from '../../src/recall/decide/recall-settings.js';
import { castCosts } from '../../src/recall/level/cast-costs.js';
import { clinicCapacity } from '../../src/recall/level/clinic-capacity.js';
import { clinicDays } from '../../src/recall/level/clinic-week.js';
import { placeInSessions } from '../../src/recall/level/place-in-sessions.js';
import { type PlanRequestContext, planRequests } from '../../src/recall/level/plan-requests.js';
import { addDaysIso } from '../../src/records/dates.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { entryOf, rising, testRecord, today } from './build-a-clinic.js';

const day = (n: number) => addDaysIso(today, n);

describe('a request', () => {
  const entry = (over: Partial<RecallEntry> = {}) => ({
    ...entryOf(testRecord({ id: 'a' }), [rising('a/d1', 30, 60)]),
    ...over,
  });
  const capacity = clinicCapacity({ clinicians: [{ id: 'Noor', slotsPerWeek: 3 }] } as never, today, 26);
  const of = (visit: RecallEntry, more: Partial<PlanRequestContext> = {}) =>
    planRequests({ today, entries: [visit], notDue: [] } as never, {
      childOf: () => undefined,
      turnaroundOf: (family) => estimateTurnaround([], family, today),
      capacity,
      settings: recallSettings.parse({}),
      ...more,
    });
  const first = (...given: Parameters<typeof of>) => of(...given)[0];

  it('says that the skin cannot warn, so that it is spared first', () => {
    expect(first(entry({ alerts: ['skin-cannot-warn'] })).insensateSkin).toBe(true);
    expect(first(entry({ alerts: ['latex'] })).insensateSkin).toBe(false);
  });
  it('is of the child’s own clinician, where the clinic has that one, on days it can be brought', () => {
    const child = (clinician: string) => ({
      childOf: () => ({ clinician, transportDays: [2, 4], prefersHolidays: true }) as never,
    });
    expect(first(entry(), child('Noor'))).toMatchObject({
      clinicianIds: ['Noor'],
      transportDays: [2, 4],
      prefersHolidays: true,
    });
    expect(first(entry(), child('Somebody else')).clinicianIds).toEqual([]);
  });
  it('is no second cast while the next one is being made', () => {
    const visit = entry();
    const [cast] = visit.devices;
    const made = { ...cast, action: 'none', reason: { code: 'being-made', numbers: {} } } as typeof cast;
    expect(of(visit).some((r) => r.action === 'cast')).toBe(true);
    expect(of({ ...visit, devices: [made] }).some((r) => r.action === 'cast')).toBe(false);
  });
  it('keeps the week that is booked, and never offers again one that came to nothing but by the clinic', () => {
    const earlier = {
      previousWeek: day(7),
      told: true,
      bookedWeek: day(7),
      passedWeeks: [
        { week: day(-14), why: 'declined' },
        { week: day(-7), why: 'clinic-cancelled' },
      ],
    };
    expect(first(entry(), { earlierOf: () => earlier as never })).toMatchObject({
      bookedWeek: day(7),
      previousWeek: day(7),
      previousWeekTold: true,
      notInWeeks: [day(-14)],
    });
  });
  it('for what cannot be cast away costs its harm for every day it waits', () => {
    const visit = entry();
    const broken = { ...visit.devices[0], action: 'repair', dueBy: today, castBy: null, harmPerWeek: 14 };
    const [waits] = of({ ...visit, action: 'repair', devices: [broken] as never, reviewBy: day(400) });
    const [one, two] = waits.outgrownDays;
    expect(two - one).toBeCloseTo(7 * 2, 10);
  });
});

// Beyond use with a chance that rises evenly from today to 100 days on: by day t it has been so for t^2 / 200 days on average.
it('a cast costs the days beyond use until the next is fitted, and those left in the old one, by the closed form', () => {
  const forecast = { dates: [today, day(100)], probabilityOutgrown: [0, 1] };
  const { outgrownDays, wastedDays } = castCosts({ forecast }, { samplesDays: [20] }, [day(0), day(30)], 7);
  for (const [i, fitted] of [27, 57].entries()) {
    expect(outgrownDays[i]).toBeCloseTo(fitted ** 2 / 200, 10);
    expect(wastedDays[i]).toBeCloseTo(100 - fitted - (50 - fitted ** 2 / 200), 10);
  }
});

it('no session holds more than its places, and who has none is told as over the limit', () => {
  const problem = { weeks: 1, slots: [1, 1], type: [0, 0], sessionsOfType: [[0]], sessionWeek: [0] };
  const places = (sessionSlots: number[]) => placeInSessions({ ...problem, sessionSlots } as never, [0, 0]);
  expect(places([2]).map((p) => p.overtime)).toEqual([0, 0]);
  const one = places([1]);
  expect(one.map((p) => p.overtime).sort()).toEqual([0, 1]);
  expect(one.map((p) => p.session).sort()).toEqual([0, null]);
});

it('a clinic’s closed days shut everybody out, a clinician’s own only that one', () => {
  const { isShut } = clinicDays({
    clinicClosures: [{ from: '2026-08-03', to: '2026-08-07' }],
    clinicians: [
      { id: 'Noor', slotsPerWeek: 3, away: [{ from: '2026-09-01', to: '2026-09-02' }] },
      { id: 'Bo', slotsPerWeek: 3 },
    ],
  } as never);
  for (const who of ['Noor', 'Bo', '']) expect(isShut('2026-08-05', who)).toBe(true);
  expect([isShut('2026-09-01', 'Noor'), isShut('2026-09-01', 'Bo'), isShut('2026-09-01', '')]).toEqual([
    true,
    false,
    false,
  ]);
});
