import { beforeAll, describe, expect, it } from 'vitest';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import type { RecallList } from '../../src/recall/contract.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { levelRecallList } from '../../src/recall/level/level-recall-list.js';
import { groupByChild } from '../../src/records/caseload.js';
import { addDaysIso, daysBetween } from '../../src/records/dates.js';
import { deviceEventRecord } from '../../src/records/device.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { rampForecast, today as ramps, testRecord } from './build-a-clinic.js';

// The rules checked here are the clinic's own, as the contract in src/recall/contract.ts states them: no outside source.
const today = '2026-11-25';
const { caseload } = demoClinic({ children: 90, seed: 20240317, today });
const records = groupByChild(caseload);
const turnaroundOf = (family: string) => estimateTurnaround(caseload.jobs, family, today);
const childOf = (id: string) => records.find((r) => r.child.id === id)?.child;
const leveled = (list: RecallList, slotsPerWeek: number, closures: { from: string; to: string }[] = []) =>
  levelRecallList(list, {
    clinic: { clinicians: [{ id: 'clinic', slotsPerWeek }], workshop: [], clinicClosures: closures },
    childOf,
    turnaroundOf,
  });

describe('levelRecallList, on the demo clinic of 90 children', () => {
  let list: RecallList;
  beforeAll(() => {
    const context = { today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: 200 };
    const assessments = records.map((r) => assessChild(r, context));
    list = buildRecallList(assessments, records, turnaroundOf, { today, rules: loadRules() });
  }, 60_000);

  it('is a steady clinic: few children are late on any day', () => {
    const late = list.entries.filter((e) => e.dueBy !== null && e.dueBy < today).length;
    expect(late / records.length).toBeGreaterThan(0);
    expect(late / records.length).toBeLessThanOrEqual(0.1);
  });

  it('keeps everybody, without weeks and said so, where the planning breaks down', async () => {
    const heard: unknown[] = [];
    const planned = await levelRecallList(list, {
      clinic: { clinicians: [{ id: 'clinic', slotsPerWeek: 12 }], workshop: [], clinicClosures: [] },
      childOf,
      turnaroundOf: () => {
        throw new RangeError('broken');
      },
      failed: (error) => heard.push(error),
    });
    expect(planned.entries).toEqual(list.entries);
    expect(planned.levelling.notLevelled).toContain('latest safe day');
    expect(heard).toEqual([new RangeError('broken')]);
  });

  it.each([12, 6])(
    'with %i slots a week gives each due child a week, in its window or said to be late',
    async (slots) => {
      const planned = await leveled(list, slots);
      const { harmed, weeks } = planned.levelling;
      expect(planned.entries.length).toBeGreaterThan(10);
      for (const entry of planned.entries.filter((e) => e.action !== 'see-now')) {
        expect(entry.plannedWeek, entry.childId).toBeDefined();
        const friday = addDaysIso(entry.plannedWeek!, 4);
        expect(new Date(entry.plannedWeek!).getUTCDay(), 'a Monday').toBe(1);
        expect(entry.weekReason).toMatch(/week of|first planned week/);
        if ((entry.action !== 'cast' && entry.action !== 'check') || entry.castBy === null) continue;
        const named = /[Oo]verdue|after the latest safe day/.test(entry.weekReason!);
        // A look that the review is early enough for is late after that.
        const safe = [entry.castBy, entry.action === 'check' ? (entry.dueBy ?? '') : ''].sort()[1];
        const late = friday > safe;
        if (late) {
          expect(named, `${entry.childId}: ${entry.weekReason}`).toBe(true);
          const soonest = weeks[0].week === entry.plannedWeek;
          const isHarmed = harmed.some((h) => h.childIds.includes(entry.childId));
          expect(entry.late || soonest || isHarmed, entry.childId).toBe(true);
        }
      }
      for (const week of weeks) expect(week.used - week.overtime).toBeLessThanOrEqual(week.slots);
      // No more entries in a week than it reports as used.
      for (const { week, used } of weeks) {
        const here = planned.entries.filter((e) => e.plannedWeek === week);
        expect(new Set(here.map((e) => e.siblingGroup ?? e.childId)).size).toBeLessThanOrEqual(used);
      }
    },
  );

  it('changes nothing of the list but the weeks', async () => {
    const planned = await leveled(list, 12);
    expect(
      planned.entries.map(({ plannedWeek: _, weekReason: __, tooLate: ___, ...entry }) => entry),
    ).toEqual(list.entries);
    expect(await leveled(list, 12)).toEqual(planned);
  });

  it('names the weeks with too few places, and what one more would buy', async () => {
    const scarce = (await leveled(list, 1)).levelling;
    const ample = (await leveled(list, 200)).levelling;
    expect(scarce.harmed.length).toBeGreaterThan(0);
    expect(scarce.weeks.every((w) => w.used <= w.slots && w.overtime === 0)).toBe(true);
    expect(scarce.relief[0].text).toMatch(/One more casting slot .* would spare/);
    expect(ample.weeks.every((w) => w.overtime === 0)).toBe(true);
    expect([ample.harmed, ample.relief]).toEqual([[], []]);
  });

  it('puts nobody into a week in which the clinic is closed', async () => {
    const first = (await leveled(list, 12)).levelling.weeks[0].week;
    const planned = await leveled(list, 2, [{ from: first, to: addDaysIso(first, 13) }]);
    const starts = planned.entries.flatMap((e) => (e.plannedWeek ? [daysBetween(first, e.plannedWeek)] : []));
    expect(Math.min(...starts)).toBe(14);
    expect(planned.entries.find((e) => e.castBy !== null && e.castBy < first)?.weekReason).toMatch(
      /after the latest safe day/,
    );
  });
});

it('on a Sunday plans from the next day on, not into the week that is over', async () => {
  const sunday = addDaysIso(ramps, 6);
  const record = testRecord({ id: 'late' });
  const forecasts = [{ ...rampForecast('late/d1', -30, 20), today: sunday }];
  const list = buildRecallList(
    [{ childId: 'late', forecasts }],
    [record],
    (family) => estimateTurnaround([], family, sunday),
    { today: sunday, rules: loadRules() },
  );
  const { entries } = await levelRecallList(list, {
    clinic: {},
    childOf: () => record.child,
    turnaroundOf: (family) => estimateTurnaround([], family, sunday),
  });
  expect(entries[0]).toMatchObject({ late: true, plannedWeek: addDaysIso(ramps, 7) });
});

it('never plans a broken brace behind a routine cast', async () => {
  const casts = ['a', 'b', 'c', 'd'].map((id) => testRecord({ id, devices: [{ id: `${id}/d1` }] }));
  const event = { id: 'z/e1', deviceId: 'z/d1', date: addDaysIso(ramps, -1), kind: 'broken' };
  const broken = {
    ...testRecord({ id: 'z', devices: [{ id: 'z/d1' }] }),
    events: [deviceEventRecord.parse(event)],
  };
  const records = [...casts, broken];
  const turnaround = (family: string) => estimateTurnaround([], family, ramps);
  const assessments = records.map((r) => ({
    childId: r.child.id,
    forecasts: [rampForecast(`${r.child.id}/d1`, r === broken ? 300 : -60, r === broken ? 500 : 20)],
  }));
  const list = buildRecallList(assessments, records, turnaround, { today: ramps, rules: loadRules() });
  const { entries } = await levelRecallList(list, {
    clinic: { clinicians: [{ id: 'clinic', slotsPerWeek: 1 }], workshop: [], clinicClosures: [] },
    childOf: (id) => records.find((r) => r.child.id === id)?.child,
    turnaroundOf: turnaround,
  });
  const weekOf = (id: string) => entries.find((e) => e.childId === id)!.plannedWeek ?? '9999';
  expect(entries.find((e) => e.childId === 'z')?.action).toBe('repair');
  for (const { child } of casts) expect(weekOf('z') < weekOf(child.id), child.id).toBe(true);
});

it('keeps a family that is booked on the list, though nothing is due any more', async () => {
  const record = testRecord({ id: 'told' });
  const turnaround = (family: string) => estimateTurnaround([], family, ramps);
  const far = [{ childId: 'told', forecasts: [rampForecast('told/d1', 700, 900)] }];
  const list = buildRecallList(far, [record], turnaround, { today: ramps, rules: loadRules() });
  const week = addDaysIso(ramps, 14);
  const before = { childId: 'told', action: 'cast', deviceIds: ['told/d1'], plannedWeek: week } as const;
  const listed = async (state: 'booked' | 'to-call', childOf = () => record.child) =>
    levelRecallList(list, {
      clinic: {},
      childOf,
      turnaroundOf: turnaround,
      earlier: [{ ...before, clinician: '', passedWeeks: [], state, appointment: null }],
    });
  expect(list.entries).toEqual([]);
  expect((await listed('to-call')).entries).toEqual([]);
  const { entries, notDue } = await listed('booked');
  expect(entries).toMatchObject([{ childId: 'told', plannedWeek: week }]);
  expect(notDue).toEqual([]);
  // Bookings hold where the weeks cannot be planned, as that list says.
  const broken = await listed('booked', () => {
    throw new RangeError('broken');
  });
  expect(broken.levelling.notLevelled).toContain('booked hold');
  expect(broken.entries).toMatchObject([{ childId: 'told' }]);
});
