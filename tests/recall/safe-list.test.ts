import { describe, expect, it } from 'vitest';
import type { AssessmentContext } from '../../src/forecast/assess-child.js';
import type { DeviceForecast, Flag } from '../../src/forecast/contract.js';
import { acceptedChance, harmADay } from '../../src/recall/decide/accepted-chance.js';
import { adjustStep } from '../../src/recall/decide/adjust-step.js';
import { alertsOf } from '../../src/recall/decide/alerts-of.js';
import { beyondUseChance } from '../../src/recall/decide/beyond-use-chance.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import { castBy, plannedWait } from '../../src/recall/decide/cast-by.js';
import { checkFigure } from '../../src/recall/decide/check-figure.js';
import { lastSeen } from '../../src/recall/decide/last-seen.js';
import { recallSettings } from '../../src/recall/decide/recall-settings.js';
import { reviewBy, reviewDays } from '../../src/recall/decide/review-by.js';
import { byHarm } from '../../src/recall/decide/working-order.js';
import { clinicCapacity } from '../../src/recall/level/clinic-capacity.js';
import { planRequests } from '../../src/recall/level/plan-requests.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso, dayNumber } from '../../src/records/dates.js';
import { measurementRecord } from '../../src/records/records.js';
import { reviewIntervalDays } from '../../src/rules/by-age.js';
import { buildChild } from '../forecast/build-record.js';
import { entryOf, event, far, flag, rising, rules, testRecord, today, turnaround } from './build-a-clinic.js';

const settings = recallSettings.parse({});
const p80 = turnaround('solid-afo').p80Days;

const actionsOf = (entry: ReturnType<typeof entryOf>) =>
  Object.fromEntries([...entry.devices, ...entry.otherDevices].map((d) => [d.deviceId, d.action]));
const both = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', side: 'right' }] });

describe('what cannot wait', () => {
  const forecasts = [far('a/d1'), far('a/d2')];

  it('a red flag of a device makes an urgent visit for that device, and one of the child for all', () => {
    const one = entryOf(both, forecasts, [flag({ deviceId: 'a/d2' })]);
    expect(one).toMatchObject({ action: 'see-now', dueBy: today, reason: { code: 'red-flag' } });
    expect(actionsOf(one)).toEqual({ 'a/d1': 'none', 'a/d2': 'see-now' });
    expect(actionsOf(entryOf(both, forecasts, [flag({})]))).toEqual({ 'a/d1': 'see-now', 'a/d2': 'see-now' });
    expect(entryOf(both, forecasts, [flag({ severity: 'check' })]).action).toBe('none');
  });

  it('gives the visit its name, however much more another device would be harmed by waiting', () => {
    const late = [rising('a/d1', -60, -20), far('a/d2')];
    const visit = entryOf(both, late, [flag({ deviceId: 'a/d2' })]);
    expect(visit.devices.map((d) => [d.deviceId, d.action])).toEqual([
      ['a/d1', 'cast'],
      ['a/d2', 'see-now'],
    ]);
    expect(visit).toMatchObject({ action: 'see-now', reason: { code: 'red-flag' } });
    const [cast, seen] = visit.devices;
    expect(cast.harmPerWeek).toBeGreaterThan(seen.harmPerWeek);
  });

  it('a visit is beyond use since the first of its devices is', () => {
    const since = entryOf(both, [rising('a/d1', -60, -20), rising('a/d2', -90, -50)]);
    expect(since.beyondUseSince).toBe(addDaysIso(today, -70));
  });

  it('of whom nothing is known counts as beyond use by an even chance, three times where the skin cannot warn', () => {
    const harm = (more: Record<string, unknown>, rules?: AssessmentContext['rules']) => {
      const built = buildChild(today, 7, { sex: 'female', ...more }).device('solid-afo', 'left', 8);
      if (rules) built.measured('foot_length', 'left', 1, 190);
      const visit = entryOf(built.record, [...built.assess(rules && { rules }).forecasts]);
      expect(visit).toMatchObject({ action: 'measure', dueBy: today });
      return visit.harmPerWeek;
    };
    expect(harm({})).toBe(3.5);
    expect(harm({ insensateSkin: true })).toBe(10.5);
    // So does a child whose record the sums cannot take: its usual review may be half a year away.
    const broken = new Map(rules).set('solid-afo', {
      ...rules.get('solid-afo')!,
      dimensions: undefined as never,
    });
    expect(harm({}, broken)).toBe(3.5);
    expect(harm({ insensateSkin: true }, broken)).toBe(3 * 3.5);
  });

  it('what was seen under a device that has ended is not forgotten with it', () => {
    const open = [flag({ deviceId: 'a/d1' })];
    const ended = testRecord({
      id: 'a',
      devices: [
        { id: 'a/d1', status: 'retired' },
        { id: 'a/d2', castDate: addDaysIso(today, -30) },
      ],
    });
    expect(actionsOf(entryOf(ended, [far('a/d2')], open))).toEqual({ 'a/d2': 'see-now' });
    expect(actionsOf(entryOf(ended, [far('a/d2')]))).toEqual({ 'a/d2': 'none' });
    // Ended by its entry alone, though it still counts as worn.
    const byEntry = { ...both, events: [event('retired')] };
    const out = [{ ...far('a/d1'), outcome: 'not-in-use' as const }, far('a/d2')];
    expect(actionsOf(entryOf(byEntry, out, open))).toEqual({ 'a/d2': 'see-now' });
  });

  it('a wound under the only device, which was taken off for it, brings the child in', () => {
    const off = testRecord({ id: 'a', devices: [{ id: 'a/d1', status: 'retired' }] });
    const out = [{ ...far('a/d1'), outcome: 'not-in-use' as const }];
    expect(actionsOf(entryOf(off, out, [flag({ deviceId: 'a/d1' })]))).toEqual({ 'a/d1': 'see-now' });
    expect(entryOf(off, out, [flag({ deviceId: 'a/d1', severity: 'check' })])).toBeUndefined();
    expect(entryOf(off, out)).toBeUndefined();
  });

  it('a head that crosses centiles is about the helmet, not the foot', () => {
    const record = testRecord({
      id: 'a',
      devices: [{ id: 'a/d1' }, { id: 'a/d2', family: 'cranial-orthosis', side: 'none' }],
    });
    const head = flag({ series: { measure: 'head_circumference', side: 'none' } });
    expect(actionsOf(entryOf(record, forecasts, [head]))).toMatchObject({
      'a/d1': 'none',
      'a/d2': 'see-now',
    });
    const trunk = flag({ series: { measure: 'stature', side: 'none' } });
    expect(actionsOf(entryOf(record, forecasts, [trunk]))).toMatchObject({ 'a/d1': 'see-now' });
  });

  it('it comes before a newer device, and a broken one before the next on its way', () => {
    const replaced = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', replaces: 'a/d1' }] });
    const open = entryOf(replaced, forecasts, [flag({ deviceId: 'a/d1' })]);
    expect(actionsOf(open)).toMatchObject({ 'a/d1': 'see-now' });
    expect(actionsOf(entryOf(replaced, forecasts))).toMatchObject({ 'a/d1': 'none' });
    const made = testRecord({
      id: 'a',
      devices: [
        { id: 'a/d1' },
        { id: 'a/d2', status: 'ordered', castDate: addDaysIso(today, -3), fittedDate: null },
      ],
    });
    expect(actionsOf(entryOf(made, forecasts))).toMatchObject({ 'a/d1': 'none' });
    for (const kind of ['broken', 'lost'])
      expect(entryOf({ ...made, events: [event(kind)] }, forecasts)).toMatchObject({
        action: 'repair',
        dueBy: today,
        reason: { code: kind },
      });
    expect(entryOf({ ...made, events: [event('broken')] }, forecasts).harmPerWeek).toBeGreaterThanOrEqual(7);
  });

  it('is not planned into the weeks', () => {
    const list = buildRecallList([{ childId: 'a', forecasts, flags: [flag({})] }], [both], turnaround, {
      today,
      rules,
    });
    const capacity = clinicCapacity({}, today, 26);
    const context = { childOf: () => both.child, turnaroundOf: turnaround, capacity, settings };
    expect(planRequests(list, context)).toEqual([]);
  });
});

describe('what a device asks for', () => {
  const record = testRecord({ id: 'a' });
  const slow = rising('a/d1', -60, 220);

  it('a reading that the answer rests on comes before a cast; a reviewer’s outgrown needs none', () => {
    const readingNeeded = {
      why: 'never-measured',
      measure: 'foot_length',
      side: 'left',
      date: null,
    } as const;
    expect(entryOf(record, [rising('a/d1', -60, 20, { readingNeeded })]).action).toBe('measure');
    const lastVerdict = {
      date: addDaysIso(today, -9),
      verdict: 'outgrown',
      measure: null,
      side: null,
    } as const;
    const said = rising('a/d1', -60, -59, { readingNeeded, lastVerdict, outcome: 'already-outgrown' });
    expect(entryOf(record, [said])).toMatchObject({ action: 'cast', reason: { code: 'judged-outgrown' } });
  });

  it('is adjusted before it is cast, unless the cast is due sooner or plainly', () => {
    const adjustments = [
      {
        series: { measure: 'calf_girth', side: 'left' },
        kind: 'strap',
        stepMm: null,
        dueNow: true,
        p10: addDaysIso(today, -1),
        p50: addDaysIso(today, -1),
        days: Array.from({ length: 19 }, () => addDaysIso(today, -1)),
        extensionLeftMm: 20,
      },
    ] as const;
    expect(entryOf(record, [slow]).action).toBe('check');
    expect(entryOf(record, [{ ...slow, adjustments }])).toMatchObject({
      action: 'adjust',
      dueBy: addDaysIso(today, -1),
    });
    expect(entryOf(record, [rising('a/d1', -60, 20, { adjustments })]).action).toBe('cast');
  });

  it('beyond use is cast; between a fifth and four fifths it is looked at first', () => {
    const beyond = entryOf(record, [rising('a/d1', -60, 20)]);
    expect(beyond).toMatchObject({
      action: 'cast',
      beyondUseSince: addDaysIso(today, -20),
      daysBeyondUse: 20,
    });
    // In the weeks of a far month the even chance is near, and a visit finds it needed with 57 %.
    const doubtful = rising('a/d1', 40 - 500 / 3, 40 + 1000 / 3);
    expect(entryOf(record, [doubtful], [], { month: '2026-09' }).action).toBe('check');
    expect(entryOf(record, [rising('a/d1', 20, 60)]).action).toBe('cast');
  });

  it('past the accepted chance it is looked at now and not at the review, however far off the even chance is', () => {
    // Of an even rise over 600 days a third is reached after 200 and one half after 300: ten days ago, or in ten.
    for (const from of [-210, -190]) {
      const entry = entryOf(record, [rising('a/d1', from, from + 600)]);
      expect(entry).toMatchObject({ action: 'check', reason: { code: 'cast-late' } });
    }
  });

  it('nobody pays yet: a look in the meantime instead of a cast', () => {
    const paid = (months: number) => ({ settings: { eligibleAfterMonths: { 'solid-afo': months } } });
    const due = [rising('a/d1', 20, 60)];
    expect(entryOf(record, due, [], paid(12))).toMatchObject({
      action: 'check',
      reason: { code: 'not-funded-yet' },
    });
    expect(entryOf(record, due, [], paid(1)).action).toBe('cast');
  });

  it('a review that is due is on the list, one that is not is not', () => {
    expect(entryOf(testRecord({ id: 'a', measuredDaysAgo: 170 }), [far('a/d1')]).action).toBe('review');
    expect(entryOf(testRecord({ id: 'a', measuredDaysAgo: 3 }), [far('a/d1')]).action).toBe('none');
  });

  it('what a note tells is looked at before a cast, until a reviewer found it well; a treatment to come even then', () => {
    const about = (kind: string, castDays: number, said?: DeviceForecast['lastVerdict']) =>
      entryOf(
        record,
        [rising('a/d1', castDays, castDays + 60, { lastVerdict: said ?? null })],
        [flag({ severity: 'check', deviceId: 'a/d1', finding: { kind, date: today } as Flag['finding'] })],
      );
    const good = { date: today, verdict: 'good', measure: null, side: null } as const;
    for (const kind of ['fit-changed', 'treatment-planned'])
      expect(about(kind, -90)).toMatchObject({ action: 'check', reason: { code: 'fit-changed' } });
    expect(about('treatment-planned', 900, good).reason.code).toBe('fit-changed');
    expect(about('fit-changed', 900, good).action).not.toBe('check');
    expect(about('skin-mark', 900)).toMatchObject({ action: 'check', reason: { code: 'noted' } });
    expect(about('skin-mark', 900, good).reason.code).not.toBe('noted');
  });

  it('a cast that was never fitted is asked about', () => {
    const made = testRecord({
      id: 'a',
      devices: [{ id: 'a/d1', status: 'ordered', castDate: addDaysIso(today, -190), fittedDate: null }],
    });
    expect(entryOf(made, [])).toMatchObject({ action: 'check', reason: { code: 'never-fitted' } });
  });

  it('another limb’s new device, or one that is worn already, takes nothing off the list', () => {
    const next = (more: object) =>
      entryOf(
        testRecord({
          id: 'a',
          devices: [
            { id: 'a/d1' },
            { id: 'a/d2', status: 'ordered', castDate: addDaysIso(today, -3), fittedDate: null, ...more },
          ],
        }),
        [rising('a/d1', -60, 20)],
      );
    const worn = (more: object) => actionsOf(next(more))['a/d1'];
    expect(worn({})).toBe('none');
    expect(worn({ side: 'right' })).toBe('cast');
    expect(worn({ family: 'wrist-hand-orthosis' })).toBe('cast');
    expect(worn({ status: 'worn', family: 'articulated-afo' })).toBe('cast');
  });

  it('one on its way that will be late is said to be', () => {
    const made = testRecord({
      id: 'a',
      devices: [
        { id: 'a/d1' },
        { id: 'a/d2', status: 'ordered', castDate: addDaysIso(today, -3), fittedDate: null },
      ],
    });
    expect(entryOf(made, [rising('a/d1', -60, 20)]).reason.code).toBe('being-made-late');
    expect(entryOf(made, [far('a/d1')]).reason.code).toBe('being-made');
  });
});

describe('who meets the child hears', () => {
  const child = (more: object) => {
    const record = testRecord({ id: 'a' });
    return { ...record, child: { ...record.child, ...more } } as ChildRecord;
  };
  it.each([
    [{}, []],
    [{ conditions: ['cerebral-palsy'] }, []],
    [{ conditions: ['myelomeningocele-high'] }, ['latex']],
    [{ conditions: ['myelomeningocele-low'] }, ['latex']],
    [{ latexAlert: true }, ['latex']],
    [{ insensateSkin: true }, ['skin-cannot-warn']],
    [{ palliative: true }, ['palliative']],
  ])('%j: %j', (more, alerts) => {
    expect(alertsOf(child(more))).toEqual(alerts);
    expect(entryOf(child(more), [far('a/d1')]).alerts).toEqual(alerts);
  });
});

describe('skin that cannot warn', () => {
  const rule = rules.get('solid-afo')!;
  const numb = testRecord({ id: 'a', insensateSkin: true });
  const plain = testRecord({ id: 'a' });

  it('is looked at at least every three months, at every age and in every family, grown up or not', () => {
    for (const r of rules.values())
      for (const age of [0.5, 1, 3, 7, 12, 17, 40]) {
        expect(reviewIntervalDays(r, age, true), `${r.id} ${age}`).toBeLessThanOrEqual(92);
        expect(reviewIntervalDays(r, age, true)).toBeLessThanOrEqual(reviewIntervalDays(r, age, false));
      }
    expect(reviewDays(null, numb, today)).toBeLessThanOrEqual(92);
    expect(reviewDays(null, plain, today)).toBeGreaterThan(92);
    const seen = lastSeen(plain, today)!;
    expect(reviewBy(rule, numb, today, true, settings) <= addDaysIso(seen, 92)).toBe(true);
    expect(reviewBy(rule, plain, today, true, settings) > addDaysIso(seen, 300)).toBe(true);
    // In palliative care too, where all other wear is looked at by the year.
    const comforted = (insensateSkin: boolean) =>
      reviewBy(rule, testRecord({ id: 'a', palliative: true, insensateSkin }), today, true, settings);
    expect(comforted(true) <= addDaysIso(seen, 92)).toBe(true);
    expect(comforted(false) > addDaysIso(seen, 300)).toBe(true);
  });

  it('weighs more in the accepted chance, in harm, and for its place in the weeks', () => {
    expect(harmADay(rule, true, settings)).toBe(3);
    expect(harmADay(rule, false, settings)).toBe(1);
    expect(harmADay(rule, true, { ...settings, harmADay: { 'solid-afo': 5 } })).toBe(5);
    expect(harmADay(rule, false, { ...settings, harmADay: { 'solid-afo': 5 } })).toBe(5);
    const forecast = rising('a/d1', -20, 300);
    const chance = (20 + p80) / 320;
    expect(entryOf(plain, [forecast]).harmPerWeek).toBeCloseTo(7 * chance, 6);
    expect(entryOf(numb, [forecast]).harmPerWeek).toBeCloseTo(3 * 7 * chance, 6);
    const capacity = clinicCapacity({}, today, 26);
    const requests = (record: ChildRecord, fitWaitDays = 0) =>
      planRequests(
        buildRecallList([{ childId: 'a', forecasts: [forecast] }], [record], turnaround, { today, rules }),
        {
          childOf: () => record.child,
          turnaroundOf: turnaround,
          capacity,
          settings: { ...settings, fitWaitDays },
        },
      );
    expect(requests(numb).every((r) => r.insensateSkin)).toBe(true);
    expect(requests(plain).some((r) => r.insensateSkin)).toBe(false);
    expect(requests(plain, 30)[0].outgrownDays[0]).toBeGreaterThan(requests(plain)[0].outgrownDays[0]);
  });

  it('what a family measured at home is no visit', () => {
    const at = (method: string) =>
      lastSeen(
        {
          ...plain,
          measurements: [
            measurementRecord.parse({
              id: 'p',
              childId: 'a',
              measure: 'foot_length',
              side: 'left',
              value: 171,
              date: addDaysIso(today, -1),
              method,
            }),
          ],
        },
        today,
      );
    expect(at('tape')).toBe(addDaysIso(today, -1));
    expect(at('parent')).toBe(addDaysIso(today, -179));
  });

  it('where nobody was ever seen the review is due from today', () => {
    const never = { ...plain, measurements: [], devices: [], events: [] };
    expect(reviewBy(null, never, today, false, settings)).toBe(addDaysIso(today, 183));
    expect(reviewBy(null, plain, today, false, settings)).toBe(addDaysIso(lastSeen(plain, today)!, 183));
  });
});

describe('the day to cast by', () => {
  it('is the day of the accepted chance less the workshop’s 80th percentile and the wait for the family', () => {
    expect(plannedWait({ p80Days: 26 }, 10)).toBe(36);
    const chance = beyondUseChance(rising('a/d1', 0, 300))!;
    const accepted = acceptedChance(1, settings);
    expect(castBy(chance, accepted, 36, null)).toBe(addDaysIso(today, 100 - 36));
    // More than an even chance is never waited for.
    expect(acceptedChance(0.1, { acceptedChance: 0.5 })).toBe(0.5);
    expect(castBy(chance, 0.9, 36, null)).toBe(addDaysIso(today, 150 - 36));
    // A person found room on a day: no cast is asked for before it.
    expect(castBy(chance, accepted, 36, addDaysIso(today, 80))).toBe(addDaysIso(today, 80));
    expect(castBy(chance, accepted, 36, addDaysIso(today, 20))).toBe(addDaysIso(today, 64));
    // But never later than the day on which the accepted chance is reached.
    expect(castBy(chance, accepted, 36, addDaysIso(today, 130))).toBe(addDaysIso(today, 100));
  });

  it.each([
    ['good', true],
    ['loose', true],
    ['tight', false],
    ['outgrown', false],
  ])('is never before the day a person found room: %s says so, %s', (verdict, isRoom) => {
    const date = addDaysIso(today, -45);
    const record = { ...testRecord({ id: 'a' }), events: [event('verdict', { date, verdict })] };
    const { castBy: by } = entryOf(record, [rising('a/d1', -60, 20)]);
    if (isRoom) expect(by).toBe(date);
    else expect(by! < addDaysIso(date, -5)).toBe(true);
  });

  it('of a device in use counts the wait that the clinic states', () => {
    const at = (fitWaitDays: number) =>
      dayNumber(
        entryOf(testRecord({ id: 'a' }), [rising('a/d1', 20, 300)], [], { settings: { fitWaitDays } })
          .castBy!,
      );
    expect(at(0) - at(21)).toBe(21);
  });

  it('so do the chance by the earliest fitting, and the harm of a week with it', () => {
    const at = (fitWaitDays: number) =>
      entryOf(testRecord({ id: 'a' }), [rising('a/d1', 0, 200)], [], { settings: { fitWaitDays } })
        .devices[0];
    // The chance rises by 1 in 200 days.
    expect(at(20).chanceByEarliestFitting! - at(0).chanceByEarliestFitting!).toBeCloseTo(0.1, 2);
    expect(at(20).harmPerWeek - at(0).harmPerWeek).toBeCloseTo(7 * 0.1, 1);
  });
});

describe('the figure at the bench', () => {
  const room = {
    series: { measure: 'foot_length', side: 'left' },
    allowanceMm: 8,
    extensionLeftMm: 0,
    grownMm: 3,
    grownSdMm: 1,
    roomMm: 5,
    roomLowMm: 3,
    roomHighMm: 7,
    paceMmAYear: 12,
    paceSdMmAYear: 3,
    limitMm: 200,
  } as const;
  const forecast = rising('a/d1', 0, 300, { room: [room] });

  it('is what the foot may grow, at the accepted chance, until the next one could be fitted after the next review', () => {
    // By hand: 12 mm a year x (1 + 0.4307 x 3/12) x 120 days / 365.25 = 4.37, so 5 mm; z(2/3) = 0.4307 (any table).
    expect(checkFigure(forecast, 1 / 3, '2026-06-10', 90, 30)).toEqual({
      measure: 'foot_length',
      side: 'left',
      castIfRoomAtMostMm: 5,
      elseNotBefore: '2026-09-08',
    });
  });

  it('an adjustment: the one that is due first, in whole holes that last over the review after the next', () => {
    const due = (measure: string, inDays: number, stepMm: number | null, left: number) => ({
      series: { measure, side: 'left' },
      kind: 'side-bar',
      stepMm,
      dueNow: false,
      p10: null,
      p50: null,
      days: Array.from({ length: 19 }, () => addDaysIso(today, inDays)),
      extensionLeftMm: left,
    });
    const knee = {
      ...room,
      series: { measure: 'knee_height', side: 'left' },
      roomMm: 21,
      extensionLeftMm: 20,
      paceMmAYear: 18,
    };
    const of = (...adjustments: unknown[]) =>
      adjustStep({ ...forecast, room: [knee], adjustments } as unknown as DeviceForecast, 1 / 3, today, 100);
    // By hand: 18 mm a year x 230 days / 365.25 = 11.3, less 1 mm of room: 10.3, two holes of 6.
    expect(of(due('hip_height', 60, 6, 30), due('knee_height', 30, 6, 20))).toMatchObject({
      measure: 'knee_height',
      steps: 2,
      mm: 12,
    });
    expect(of(due('knee_height', 30, 6, 7))).toMatchObject({ steps: 1, mm: 6 });
    expect(of(due('knee_height', 30, null, 20))).toMatchObject({ steps: null, mm: 11 });
  });
});

describe('the order of the list', () => {
  const visit = (
    childId: string,
    action: string,
    harmPerWeek: number,
    daysBeyondUse = 0,
    dueBy: string | null = null,
  ) => ({ childId, action, harmPerWeek, daysBeyondUse, dueBy }) as never;
  it('see now, repair, then the harm of a week’s wait; days beyond use, the day and the child break ties', () => {
    const inOrder = [
      visit('z', 'see-now', 0),
      visit('y', 'repair', 0),
      visit('x', 'review', 6),
      visit('w', 'cast', 5, 9, '2026-07-01'),
      visit('v', 'cast', 5, 3, '2026-06-01'),
      visit('u', 'cast', 5, 3, '2026-07-01'),
      visit('t', 'cast', 5, 3),
      visit('a', 'check', 5, 3),
      visit('b', 'check', 5, 3),
    ];
    expect([...inOrder].reverse().sort(byHarm)).toEqual(inOrder);
  });

  it('a visit is named by the most urgent of its devices and weighs as much as the worst', () => {
    const entry = entryOf({ ...both, events: [event('broken')] }, [far('a/d1'), rising('a/d2', -20, 40)]);
    expect(entry).toMatchObject({ action: 'repair', deviceIds: ['a/d1', 'a/d2'], late: true });
    const harm = entry.devices.map((d) => d.harmPerWeek);
    expect(harm[0]).toBeGreaterThan(harm[1]);
    expect(entry.harmPerWeek).toBe(harm[0]);
    const late = entryOf(testRecord({ id: 'a' }), [rising('a/d1', -60, 20)]);
    expect(late).toMatchObject({ late: true });
    expect(entryOf(testRecord({ id: 'a' }), [rising('a/d1', 50, 80)])).toMatchObject({
      action: 'cast',
      late: false,
    });
  });

  it('who is wanted by the last day is on the list, who is not is not', () => {
    const list = buildRecallList(
      [{ childId: 'a', forecasts: [rising('a/d1', -60, 20), far('a/d2')] }],
      [both, testRecord({ id: 'b', measuredDaysAgo: 3 })],
      turnaround,
      { today, rules },
    );
    expect(list.entries.map((e) => e.deviceIds)).toContainEqual(['a/d1']);
    const b = buildRecallList(
      [{ childId: 'b', forecasts: [far('b/d1')] }],
      [testRecord({ id: 'b' })],
      turnaround,
      {
        today,
        rules,
      },
    );
    expect([b.entries, b.notDue.map((e) => e.childId)]).toEqual([[], ['b']]);
  });

  it('where nothing is known, or nothing can be worked out, the chance counts as one half', () => {
    const poisoned = rising('a/d1', 5, 60, { probabilityOutgrown: [Number.NaN] });
    expect(entryOf(testRecord({ id: 'a' }), [poisoned])).toMatchObject({
      action: 'measure',
      harmPerWeek: 3.5,
    });
    const never = testRecord({ id: 'a', measuredDaysAgo: null });
    expect(entryOf(never, [])).toMatchObject({ action: 'measure', harmPerWeek: 3.5 });
  });
});

describe('readings that leave next to nothing by the time of the next fitting, though growth was expected to have been less', () => {
  const waitDays = plannedWait(turnaround('solid-afo'), settings.fitWaitDays);
  const toleranceMm = rules.get('solid-afo')!.dimensions[0].toleranceMm.value;
  const allowanceMm = rules.get('solid-afo')!.dimensions[0].allowanceMm.value;
  const PACE = 3.6525;
  /** A device that lasts a year yet by its forecast; two readings of which so much is left. */
  function actionWhereLeft(leftMm: number) {
    const castDate = addDaysIso(today, -150);
    const built = testRecord({
      id: 'a',
      measuredDaysAgo: null,
      devices: [{ id: 'a/d1', castDate }],
    });
    const reading = (id: string, date: string, value: number) =>
      measurementRecord.parse({ id, childId: 'a', measure: 'foot_length', side: 'left', value, date });
    const grown = allowanceMm - leftMm - (PACE * waitDays) / 365.25;
    const measurements = [reading('m1', castDate, 170), reading('m2', today, 170 + grown)];
    const room = { series: { measure: 'foot_length', side: 'left' }, paceMmAYear: PACE };
    const forecast = { ...rising('a/d1', 500, 700), room: [room] } as unknown as DeviceForecast;
    return entryOf({ ...built, measurements }, [forecast]);
  }

  it('is cast where they leave nothing that could be read, looked at where they leave no more than a limit’s SD, else left alone', () => {
    expect(toleranceMm).toBeGreaterThan(1.1);
    const saysLess = { dueBy: today, reason: { code: 'readings-say-less' } };
    expect(actionWhereLeft(0.9)).toMatchObject({ action: 'cast', ...saysLess });
    expect(actionWhereLeft(1.1)).toMatchObject({ action: 'check', ...saysLess });
    expect(actionWhereLeft(toleranceMm - 0.1)).toMatchObject({ action: 'check', ...saysLess });
    expect(actionWhereLeft(toleranceMm + 0.1).reason.code).not.toBe('readings-say-less');
  });
});

it('a device that is yet to be cast, ordered or called worn, is on no list', () => {
  for (const status of ['worn', 'ordered'] as const) {
    const device = { id: 'a/d1', status, castDate: addDaysIso(today, 1), fittedDate: null };
    expect(entryOf(testRecord({ id: 'a', devices: [device] }), [rising('a/d1', -30, 10)])).toBeUndefined();
  }
});
