import { describe, expect, it } from 'vitest';
import { clinicCapacity } from '../../src/recall/level/clinic-capacity.js';
import { combineRequests } from '../../src/recall/level/combine-requests.js';
import { levellingSettings, type PlanRequest } from '../../src/recall/level/contract.js';
import { levelPlan } from '../../src/recall/level/level-plan.js';
import { weekCosts } from '../../src/recall/level/week-costs.js';
import { randomPlan } from './random-plan.js';

const settings = levellingSettings.parse({});
const { capacity: narrow, requests } = randomPlan(2, { requests: 4, weeks: 12 });
const capacity = { ...narrow, sessions: narrow.sessions.map((s) => ({ ...s, slots: s.slots + 2 })) };
const flat = new Array(13).fill(0);
const request = (id: string, latestSafe: string, by: Partial<PlanRequest> = {}): PlanRequest => ({
  ...requests[0],
  id,
  childIds: ['c1'],
  worthIt: null,
  latestSafe,
  prefersHolidays: false,
  insensateSkin: false,
  outgrownDays: flat,
  wastedDays: Array.from({ length: 13 }, (_, w) => Math.max(0, 120 - 7 * w)),
  togetherKeys: ['child c1'],
  ...by,
});

describe('combineRequests', () => {
  it('makes one visit of what falls due together and leaves apart what does not', () => {
    const near = combineRequests(
      [request('a', '2026-06-26'), request('b', '2026-07-17')],
      capacity,
      settings,
    );
    expect(near.requests).toHaveLength(1);
    expect(near.requests[0]).toMatchObject({ slots: 1, latestSafe: '2026-06-26' });
    expect(near.visitsSaved).toBe(1);
    expect(near.requests[0].parts.map((p) => p.id)).toEqual(['a', 'b']);
    // By hand: in its last safe week b wastes 120 - 7*6 = 78 days, with a in week 3 99: 21 days at 0.1 is 2.1 weighted days: more than a visit worth 2.
    const dear = { ...settings, visitCost: 2 };
    expect(
      combineRequests([request('a', '2026-06-26'), request('b', '2026-07-17')], capacity, dear).requests,
    ).toHaveLength(2);
  });

  it('brings brothers and sisters together with a slot each, but nobody from other families', () => {
    const family = (id: string, child: string, group: string) =>
      request(id, '2026-07-03', { childIds: [child], togetherKeys: [`child ${child}`, `family ${group}`] });
    const result = combineRequests(
      [family('a', 'c1', 'f'), family('b', 'c2', 'f'), family('c', 'c3', 'g')],
      capacity,
      settings,
    );
    expect(result.requests.map((r) => r.childIds).sort()).toEqual([['c1', 'c2'], ['c3']]);
    expect(result.requests.find((r) => r.childIds.length === 2)!.slots).toBe(2);
  });

  it('lets nobody who is late wait for a brother or sister who has time', () => {
    const family = (child: string, latestSafe: string) =>
      request(child, latestSafe, { childIds: [child], togetherKeys: [`child ${child}`, 'family f'] });
    const visits = (late: string, other: string) =>
      combineRequests([family('c1', late), family('c2', other)], capacity, settings).requests.length;
    expect(visits('2026-01-05', '2026-07-03')).toBe(2);
    // Both late alike: one visit; more children than a week has places stay apart.
    expect(visits('2026-01-05', '2026-01-06')).toBe(1);
    const places = capacity.weeks.map((_, week) =>
      capacity.sessions.filter((s) => s.week === week).reduce((sum, s) => sum + s.slots, 0),
    );
    const most = Math.max(...places);
    const many = Array.from({ length: most + 1 }, (_, i) => family(`c${i}`, '2026-07-03'));
    for (const r of combineRequests(many, capacity, settings).requests)
      expect(r.slots).toBeLessThanOrEqual(most);
  });

  it('puts off the usual review before a child whose device is in question', async () => {
    const one = {
      ...capacity,
      sessions: capacity.weeks.map((_, week) => ({ ...capacity.sessions[0], week, slots: 1 })),
    };
    const late = (id: string, by: Partial<PlanRequest>) =>
      request(id, '2026-01-05', {
        childIds: [id],
        clinicianIds: [],
        transportDays: [],
        wastedDays: flat,
        togetherKeys: [id],
        ...by,
      });
    // Harm of a week by hand: 10 + 7 x 0.9 for a brace nine times in ten too small, 3 x 3 for a review of skin that cannot warn.
    const growing = flat.map((_, w) => 7 * 0.9 * w);
    const plan = await levelPlan(
      [
        late('a', { routine: true, insensateSkin: true }),
        late('b', { action: 'cast', outgrownDays: growing }),
      ],
      one,
    );
    const week = (id: string) => plan.visits.find((v) => v.requestId === id)!.week;
    expect([week('b'), week('a')]).toEqual([one.weeks[0], one.weeks[1]]);
  });

  it('keeps of both what is more urgent: the cast, and skin that cannot warn', () => {
    const [joined] = combineRequests(
      [
        request('a', '2026-06-26', { action: 'review', insensateSkin: true }),
        request('b', '2026-07-03', { action: 'cast' }),
      ],
      capacity,
      settings,
    ).requests;
    expect(joined).toMatchObject({ action: 'cast', insensateSkin: true, latestSafe: '2026-06-26' });
  });

  it('does not join what is booked for different weeks', () => {
    const booked = [capacity.weeks[1], capacity.weeks[2]].map((bookedWeek, i) =>
      request(`b${i}`, '2026-07-03', { bookedWeek }),
    );
    expect(combineRequests(booked, capacity, settings).requests).toHaveLength(2);
  });

  it('a day beyond use costs more where the skin cannot warn', () => {
    const days = { wastedDays: flat, outgrownDays: new Array(13).fill(1) };
    const costs = [false, true].map(
      (insensateSkin) =>
        weekCosts(request('a', '2026-12-31', { ...days, insensateSkin }), capacity, settings)[0],
    );
    expect(costs).toEqual([1, settings.insensateWeight]);
    expect(settings.insensateWeight).toBeGreaterThan(1);
  });

  it('does not join visits that no transport day suits', () => {
    const apart = combineRequests(
      [
        request('a', '2026-06-26', { transportDays: [1] }),
        request('b', '2026-06-26', { transportDays: [4] }),
      ],
      capacity,
      settings,
    );
    expect(apart.requests).toHaveLength(2);
  });

  it('plans a combined visit once', async () => {
    const { requests: joined } = combineRequests(
      [request('a', '2026-06-26'), request('b', '2026-07-03')],
      capacity,
      settings,
    );
    const roomy = { ...capacity, sessions: capacity.sessions.map((s) => ({ ...s, slots: 2 })) };
    const plan = await levelPlan(joined, roomy);
    expect(plan.visits).toHaveLength(1);
    expect(plan.visits[0].insideWindow).toBe(true);
  });
});

describe('clinicCapacity', () => {
  it('takes closures, leave and days already gone from the slots, and marks school holidays', () => {
    const week = clinicCapacity(
      {
        clinicians: [
          { id: 'a', slotsPerWeek: 10, away: [{ from: '2026-06-08', to: '2026-06-09' }] },
          { id: 'b', slotsByWeekday: [{ weekday: 2, slots: 3 }] },
        ],
        workshop: [{ families: [], jobsPerWeek: 10 }],
        clinicClosures: [{ from: '2026-06-16', to: '2026-06-16' }],
        workshopClosures: [{ from: '2026-06-15', to: '2026-06-19' }],
        schoolHolidays: [{ from: '2026-06-08', to: '2026-06-12' }],
      },
      '2026-06-03',
      3,
    );
    const slots = (w: number, id: string) =>
      week.sessions.find((s) => s.week === w && s.clinicianId === id)?.slots ?? 0;
    // 3 June 2026 is a Wednesday: two whole days are left, and b's Tuesday is gone.
    expect([slots(0, 'a'), slots(1, 'a'), slots(2, 'a')]).toEqual([4, 6, 8]);
    expect([slots(0, 'b'), slots(1, 'b'), slots(2, 'b')]).toEqual([0, 3, 0]);
    expect(week.workshop[0].jobsByWeek).toEqual([4, 10, 0]);
    expect(week.schoolHoliday).toEqual([false, true, false]);
  });
});
