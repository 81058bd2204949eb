import { expect, it } from 'vitest';
import type { DeviceDecision, RecallEntry } from '../../src/recall/contract.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { recallSettings } from '../../src/recall/decide/recall-settings.js';
import { clinicCapacity } from '../../src/recall/level/clinic-capacity.js';
import { combineRequests } from '../../src/recall/level/combine-requests.js';
import { levellingSettings } from '../../src/recall/level/contract.js';
import { levelPlan } from '../../src/recall/level/level-plan.js';
import { planRequests, requestIdsOf } from '../../src/recall/level/plan-requests.js';
import { insideWindow, weekCosts } from '../../src/recall/level/week-costs.js';
import { addDaysIso } from '../../src/records/dates.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { rampForecast, testRecord, today } from './build-a-clinic.js';

it('goes from the recall list to a plan in which every due child has a week', async () => {
  const records = ['a', 'b', 'c'].map((id) =>
    testRecord({ id, devices: [{ id: `${id}/d1` }, { id: `${id}/d2`, side: 'right' }] }),
  );
  records.push(testRecord({ id: 'never', measuredDaysAgo: null, devices: [{ id: 'never/d1' }] }));
  const assessments = records.map((r, i) => ({
    childId: r.child.id,
    forecasts:
      r.child.id === 'never'
        ? []
        : [
            rampForecast(`${r.child.id}/d1`, 40 + 20 * i, 90 + 20 * i),
            rampForecast(`${r.child.id}/d2`, 55 + 20 * i, 110 + 20 * i),
          ],
  }));
  const turnaroundOf = (family: string) => estimateTurnaround([], family, today);
  const list = buildRecallList(assessments, records, turnaroundOf, { today, rules: loadRules() });
  const capacity = clinicCapacity({}, today, 26);
  const requests = planRequests(list, {
    childOf: (id) => records.find((r) => r.child.id === id)?.child,
    turnaroundOf,
    capacity,
    settings: recallSettings.parse({}),
  });
  const combined = combineRequests(requests, capacity, levellingSettings.parse({}));
  // Both sides of a child are one visit; the child nobody could forecast has a visit of its own, this week.
  const both = combined.requests.filter((r) => r.deviceIds.length === 2);
  expect(both.map((r) => r.childIds[0]).sort()).toEqual(['a', 'b', 'c']);
  expect(combined.visitsSaved).toBe(requests.length - combined.requests.length);
  const plan = await levelPlan(combined.requests, capacity);
  expect(plan.visits.find((v) => v.childIds[0] === 'never')!.week).toBe(capacity.weeks[0]);
  for (const id of ['a', 'b', 'c']) {
    const visit = plan.visits.find((v) => v.childIds[0] === id && v.action === 'cast')!;
    expect(visit.insideWindow, id).toBe(true);
  }
});

/** What is asked of the weeks for a child whose list says this, and what the list says. */
function asked(told: Partial<RecallEntry>, ofDevice: Partial<DeviceDecision>) {
  const record = testRecord({ id: 'a', devices: [{ id: 'a/d1' }] });
  const turnaroundOf = (family: string) => estimateTurnaround([], family, today);
  const list = buildRecallList(
    [{ childId: 'a', forecasts: [rampForecast('a/d1', 40, 90)] }],
    [record],
    turnaroundOf,
    { today, rules: loadRules() },
  );
  const [entry] = [...list.entries, ...list.notDue];
  const device = { ...[...entry.devices, ...entry.otherDevices][0], ...ofDevice };
  const due = { ...entry, devices: [device], otherDevices: [], reviewBy: addDaysIso(today, 400), ...told };
  const capacity = clinicCapacity({}, today, 26);
  const requests = planRequests(
    { ...list, entries: [due], notDue: [] },
    { childOf: () => record.child, turnaroundOf, capacity, settings: recallSettings.parse({}) },
  );
  return { due, requests, capacity };
}

// 'The straps are worn out by the 30th', 'operated on last week': the child is seen by that day, whenever it is cast again.
it.each([
  ['a check', 'check', addDaysIso(today, 300)],
  ['a check', 'check', addDaysIso(today, 40)],
  ['a check', 'check', null],
  ['a cast', 'cast', null],
  ['a cast', 'cast', addDaysIso(today, 40)],
] as const)('plans %s due this week for this week (%s, cast by %s)', (_, action, castBy) => {
  const { due, requests } = asked({ action }, { action, dueBy: today, castBy });
  expect(requestIdsOf(due).map((id) => requests.find((r) => r.id === id)?.latestSafe)).toEqual([today]);
});

// Earlier throws away months of a device that still fits; the four weeks are common practice, no source.
it('offers a cast no week that ends more than four weeks before its day, and every week after that', () => {
  const castBy = addDaysIso(today, 120);
  const { requests, capacity } = asked({ action: 'cast' }, { action: 'cast', castBy, dueBy: null });
  const [cast] = requests.filter((r) => r.action === 'cast');
  const costs = weekCosts(cast, capacity, levellingSettings.parse({}));
  const early = capacity.weeks.map((monday) => addDaysIso(monday, 4) < addDaysIso(castBy, -28));
  expect(early.indexOf(false)).toBeGreaterThan(0);
  expect(capacity.weeks.map((_, w) => costs[w] === Number.POSITIVE_INFINITY)).toEqual(early);
});

// A wound is looked at today or tomorrow: a week that the plan finds for it would put it off.
it('gives no week to whoever must be seen now, whatever else the child is due for', () => {
  const castBy = addDaysIso(today, 40);
  const asks = (action: RecallEntry['action']) =>
    asked({ action }, { action, castBy, dueBy: today }).requests;
  expect(asks('see-now')).toEqual([]);
  expect(asks('repair')).not.toEqual([]);
});

// A review that waits for the workshop's place of a cast months away is late for nothing.
it.each([
  [100, 2],
  [45, 2],
  [14, 1],
])(
  'makes one visit of a review due today and a cast in %i days only where the cast is worth it about then',
  (days, visits) => {
    const { requests, capacity } = asked(
      { reviewBy: today },
      { action: 'none', castBy: addDaysIso(today, days) },
    );
    const { requests: combined } = combineRequests(requests, capacity, levellingSettings.parse({}));
    expect(requests).toHaveLength(2);
    expect(combined).toHaveLength(visits);
  },
);

it('a usual review is in time in the week it is due and in none after it', () => {
  const due = addDaysIso(today, 35);
  const { requests, capacity } = asked({ reviewBy: due }, { action: 'none', castBy: null });
  const inTime = capacity.weeks.filter((week) => insideWindow(requests[0], capacity, week));
  expect(inTime.at(-1)).toBe(capacity.weeks.filter((monday) => monday <= due).at(-1));
});

// Common practice, no source: both are cast where the second falls due within about eight weeks.
it('lets the cast of another device come along from the day the first is worth it', () => {
  const casts = (days: number) => {
    const record = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', side: 'right' }] });
    const turnaroundOf = (family: string) => estimateTurnaround([], family, today);
    const forecasts = [rampForecast('a/d1', 60, 100), rampForecast('a/d2', 60 + days, 100 + days)];
    const list = buildRecallList([{ childId: 'a', forecasts }], [record], turnaroundOf, {
      today,
      rules: loadRules(),
    });
    const capacity = clinicCapacity({}, today, 26);
    const settings = recallSettings.parse({});
    const childOf = () => record.child;
    return planRequests(list, { childOf, turnaroundOf, capacity, settings }).filter(
      (r) => r.action === 'cast',
    );
  };
  const [near, far] = [50, 70].map((days) => new Set(casts(days).map((r) => r.worthIt)).size);
  expect([near, far]).toEqual([1, 2]);
});
