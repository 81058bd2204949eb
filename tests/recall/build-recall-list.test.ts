import { describe, expect, it } from 'vitest';
import type { DeviceForecast } from '../../src/forecast/contract.js';
import { buildRecallList } from '../../src/recall/decide/build-recall-list.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { rampForecast, testRecord, today } from './build-a-clinic.js';

const turnaround = (family: string) => estimateTurnaround([], family, today);
const build = (records: ChildRecord[], forecasts: DeviceForecast[], settings = {}) =>
  buildRecallList(
    records.map((r) => ({
      childId: r.child.id,
      forecasts: forecasts.filter((f) => f.childId === r.child.id),
    })),
    records,
    turnaround,
    { month: '2026-06', today, settings },
  );

describe('buildRecallList', () => {
  it('puts overdue children first, then sorts by latest safe date', () => {
    const records = ['a', 'b', 'c'].map((id) => testRecord({ id }));
    const list = build(records, [
      rampForecast('a/d1', 40, 90),
      rampForecast('b/d1', -30, 40),
      rampForecast('c/d1', 20, 70),
    ]);
    expect(list.entries.map((e) => [e.childId, e.overdue])).toEqual([
      ['b', true],
      ['c', false],
      ['a', false],
    ]);
    expect(list.entries[0].latestSafe! < today).toBe(true);
  });

  it('asks for a foot measured at home where that may move a cast that is not late, and keeps the cast', () => {
    const records = ['doubtful', 'known', 'late'].map((id) => testRecord({ id }));
    const room = (grownSdMm: number) => [
      {
        series: { measure: 'foot_length' as const, side: 'left' as const },
        allowanceMm: 10,
        grownMm: 5,
        grownSdMm,
        roomMm: 5,
        roomLowMm: 1,
        roomHighMm: 9,
        limitMm: 175,
      },
    ];
    // 5 mm over 180 days: 4 mm of doubt about the size is 144 days of doubt about the date.
    const list = build(records, [
      { ...rampForecast('doubtful/d1', 0, 360), room: room(4) },
      { ...rampForecast('known/d1', 0, 360), room: room(0.5) },
      { ...rampForecast('late/d1', -60, 300), room: room(4) },
    ]);
    const of = (id: string) => list.entries.find((e) => e.childId === id)!;
    expect(of('doubtful')).toMatchObject({ action: 'cast', overdue: false, measureFirst: 'home' });
    expect(of('doubtful').reason).toMatch(/measured at home or at school/);
    expect(of('known').measureFirst).toBeUndefined();
    expect(of('late')).toMatchObject({ overdue: true });
    expect(of('late').measureFirst).toBeUndefined();
  });

  it('loses nobody: each active child with a worn device is in exactly one list', () => {
    const records = [
      testRecord({ id: 'due' }),
      testRecord({ id: 'far' }),
      testRecord({ id: 'never-measured', measuredDaysAgo: null, devices: [{ id: 'never-measured/d1' }] }),
      testRecord({ id: 'stale', measuredDaysAgo: 600 }),
      testRecord({ id: 'no-assessment' }),
      testRecord({ id: 'adult', birthDate: '1990-01-01' }),
      testRecord({ id: 'blocked' }),
    ];
    const list = build(records, [
      rampForecast('due/d1', 40, 90),
      rampForecast('far/d1', 700, 900),
      rampForecast('never-measured/d1', 0, 1, 'too-few-measurements'),
      rampForecast('stale/d1', 700, 900),
      rampForecast('adult/d1', 0, 1, 'adult'),
      rampForecast('blocked/d1', 0, 1, 'blocked'),
    ]);
    const lists = [list.entries, list.open, list.cannotForecast, list.notDue];
    expect(
      lists
        .flat()
        .map((e) => e.childId)
        .sort(),
    ).toEqual(records.map((r) => r.child.id).sort());
    expect(list.cannotForecast.map((e) => [e.childId, e.action]).sort()).toEqual([
      ['blocked', 'urgent-contact'],
      ['never-measured', 'measure'],
      ['no-assessment', 'measure'],
      ['stale', 'measure'],
    ]);
    expect(list.entries.map((e) => e.childId)).toEqual(['due']);
    expect(list.notDue.map((e) => e.childId).sort()).toEqual(['adult', 'far']);
  });

  it('reviews adults and palliative care by wear, never by growth', () => {
    const records = [
      testRecord({
        id: 'adult',
        birthDate: '1990-01-01',
        measuredDaysAgo: 360,
        devices: [{ id: 'adult/d1', castDate: '2025-01-01', fittedDate: '2025-02-01' }],
      }),
      testRecord({
        id: 'care',
        palliative: true,
        measuredDaysAgo: 360,
        devices: [{ id: 'care/d1', castDate: '2025-01-01', fittedDate: '2025-02-01' }],
      }),
    ];
    const list = build(records, [rampForecast('adult/d1', 0, 1, 'adult'), rampForecast('care/d1', -30, 40)]);
    expect(list.entries.map((e) => e.action)).toEqual(['review-wear', 'review-wear']);
    for (const e of list.entries) expect(e.reason).not.toMatch(/grow out/);
  });

  it('does not recall a device whose replacement is being made, but shows how it stands', () => {
    const job = (cast: number) => ({
      id: 'j1',
      deviceId: 'a/d2',
      family: 'solid-afo',
      stages: { cast: addDaysIso(today, -cast) },
      status: 'in-progress' as const,
    });
    const record = (cast: number) =>
      testRecord({
        id: 'a',
        devices: [
          { id: 'a/d1' },
          { id: 'a/d2', status: 'ordered', castDate: addDaysIso(today, -cast), fittedDate: null },
        ],
        jobs: [job(cast)],
      });
    const list = build([record(5)], [rampForecast('a/d1', -30, 40)]);
    expect(list.entries).toEqual([]);
    expect(list.inProgress).toHaveLength(1);
    expect(list.inProgress[0]).toMatchObject({ deviceId: 'a/d1', replacementDeviceId: 'a/d2', late: true });
    expect(list.inProgress[0].expectedFitting! > today).toBe(true);
    // After 200 days in the workshop nobody knows when: no date is invented.
    expect(build([record(200)], [rampForecast('a/d1', 300, 400)]).inProgress[0]).toMatchObject({
      expectedFitting: null,
      late: true,
    });
  });

  it('makes one visit of two sides that fall due near each other, and two of sides that do not', () => {
    const record = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', side: 'right' }] });
    const near = build([record], [rampForecast('a/d1', 40, 90), rampForecast('a/d2', 70, 120)]);
    expect(near.entries[0].deviceIds).toEqual(['a/d1', 'a/d2']);
    expect(near.entries[0].reason).toContain('both lower leg braces');
    const apart = build([record], [rampForecast('a/d1', 40, 90), rampForecast('a/d2', 400, 500)]);
    expect(apart.entries[0].deviceIds).toEqual(['a/d1']);
  });

  it('keeps the usual review even where the forecast sees no need', () => {
    const list = build(
      [testRecord({ id: 'a', measuredDaysAgo: 175, insensateSkin: true })],
      [rampForecast('a/d1', 700, 900)],
    );
    expect(list.entries[0]).toMatchObject({ childId: 'a', action: 'measure' });
  });

  it('uses the stricter tolerance for insensate skin', () => {
    const dates = [true, false].map((insensateSkin) => {
      const list = build([testRecord({ id: 'a', insensateSkin })], [rampForecast('a/d1', 40, 240)]);
      return [...list.entries, ...list.open, ...list.notDue][0].latestSafe!;
    });
    expect(dates[0] < dates[1]).toBe(true);
  });

  it('calls an outgrown device outgrown even when no chances over dates came with it', () => {
    const bare = { ...rampForecast('a/d1', 0, 1, 'already-outgrown'), dates: [], probabilityOutgrown: [] };
    const list = build([testRecord({ id: 'a' })], [bare]);
    expect(list.entries[0]).toMatchObject({ overdue: true, action: 'cast' });
    expect(list.entries[0].reason).toContain('too small already');
  });

  it('gives reasons a parent understands: one sentence, no name, no jargon', () => {
    const list = build(
      [testRecord({ id: 'a' }), testRecord({ id: 'b', measuredDaysAgo: null, devices: [{ id: 'b/d1' }] })],
      [rampForecast('a/d1', 40, 90), rampForecast('b/d1', 0, 1, 'too-few-measurements')],
    );
    expect(list.entries[0].reason).toBe(
      'We expect your child to grow out of the left lower leg brace between mid July 2026 and late August 2026, so we would like to see you by 23 June 2026 to have the next one ready in time; please ring us sooner if it rubs, marks or hurts.',
    );
    for (const e of [...list.entries, ...list.cannotForecast]) {
      expect(e.reason).not.toMatch(/z-score|orthosis|AFO|probability|percent|%|risk|palsy/i);
      expect(e.reason.match(/\.( |$)/g)).toHaveLength(1);
    }
  });
});
