import { describe, expect, it } from 'vitest';
import type { DeviceForecast, Flag } from '../../src/forecast/contract.js';
import type { Visit } from '../../src/recall/contract.js';
import { buildRecallList, type RecallListOptions } from '../../src/recall/decide/build-recall-list.js';
import { byHarm } from '../../src/recall/decide/working-order.js';
import type { ChildRecord } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { estimateTurnaround } from '../../src/turnaround/estimate-turnaround.js';
import { clinicianReason } from '../../src/words/clinician-reason.js';
import { withSentences } from '../../src/words/reason-sentence.js';
import { rampForecast, testRecord, today } from './build-a-clinic.js';

const rules = loadRules();
const turnaround = (family: string) => estimateTurnaround([], family, today);
const build = (
  records: ChildRecord[],
  forecasts: DeviceForecast[],
  options: Partial<RecallListOptions> = {},
) =>
  buildRecallList(
    records.map((r) => ({
      childId: r.child.id,
      forecasts: forecasts.filter((f) => f.childId === r.child.id),
    })),
    records,
    turnaround,
    { today, rules, ...options },
  );

const notANumber = (f: DeviceForecast): DeviceForecast => ({
  ...f,
  probabilityOutgrown: f.probabilityOutgrown.map(() => Number.NaN),
});
const throwing = (f: DeviceForecast): DeviceForecast =>
  Object.defineProperty({ ...f }, 'outcome', {
    get() {
      throw new Error('a fault in the sums');
    },
  });

describe('buildRecallList', () => {
  it('orders by the harm of waiting a week, broken ones before all casts', () => {
    const records = ['a', 'b', 'c', 'd'].map((id) => testRecord({ id, insensateSkin: id === 'c' }));
    const broken = {
      ...records[3],
      events: [
        {
          id: 'e1',
          deviceId: 'd/d1',
          date: addDaysIso(today, -1),
          kind: 'broken' as const,
          measure: null,
          side: null,
          changeMm: null,
          adjustment: null,
          verdict: null,
          endReason: null,
          note: '',
        },
      ],
    } as ChildRecord;
    const list = build(
      [records[0], records[1], records[2], broken],
      [
        rampForecast('a/d1', 5, 60),
        rampForecast('b/d1', -60, 20),
        rampForecast('c/d1', 15, 70),
        rampForecast('d/d1', 700, 900),
      ],
    );
    expect(list.entries.map((e) => [e.childId, e.action])).toEqual([
      ['d', 'repair'],
      ['b', 'cast'],
      ['c', 'check'],
      ['a', 'cast'],
    ]);
    const visit = (
      childId: string,
      action: Visit['action'],
      harmPerWeek: number,
      daysBeyondUse = 0,
      dueBy: string | null = '2026-07-01',
    ) => ({
      childId,
      action,
      harmPerWeek,
      daysBeyondUse,
      dueBy,
    });
    const wanted = [
      visit('z', 'see-now', 0),
      visit('y', 'repair', 0),
      visit('x', 'review', 9),
      visit('w', 'cast', 5, 3),
      visit('v', 'cast', 5, 2, '2026-06-30'),
      visit('u', 'cast', 5, 2),
      visit('t', 'cast', 5, 2, null),
      visit('a', 'cast', 1, 99, '2026-01-01'),
    ];
    for (const given of [wanted, wanted.toReversed()]) expect(given.toSorted(byHarm)).toEqual(wanted);
    expect(list.entries[1]).toMatchObject({ late: true, reason: { code: 'beyond-use' } });
    const harm = list.entries.slice(1).map((e) => e.harmPerWeek);
    expect(harm).toEqual(harm.toSorted((x, y) => y - x));
  });

  describe('a child whose record the sums cannot take', () => {
    const sound = ['a', 'b'].map((id) => testRecord({ id }));
    const forecasts = [rampForecast('a/d1', 5, 60), rampForecast('b/d1', -60, 20)];
    const poisoned: [string, ChildRecord, DeviceForecast[]][] = [
      [
        'no day of the calendar',
        { ...testRecord({ id: 'p' }), child: { ...testRecord({ id: 'p' }).child, birthDate: 'never' } },
        [{ ...rampForecast('p/d1', 5, 60), dates: ['never'] }],
      ],
      ['a chance that is not a number', testRecord({ id: 'p' }), [notANumber(rampForecast('p/d1', 5, 60))]],
      [
        'a middle date of no calendar',
        testRecord({ id: 'p' }),
        [{ ...rampForecast('p/d1', -60, 20), p50: '2026-02-31' }],
      ],
      ['what throws when it is read', testRecord({ id: 'p' }), [throwing(rampForecast('p/d1', 5, 60))]],
    ];

    it.each(poisoned)('%s costs no other child its place, and itself is wanted today', (_, record, own) => {
      const heard: unknown[] = [];
      const list = build([...sound, record], [...forecasts, ...own], { failed: (e) => heard.push(e) });
      const others = build(sound, forecasts);
      expect(list.entries.filter((e) => e.childId !== 'p')).toEqual(others.entries);
      expect(list.notPlanned).toEqual(['p']);
      expect(heard).toHaveLength(1);
      const entry = withSentences(list, rules).entries.find((e) => e.childId === 'p');
      expect(entry).toMatchObject({ action: 'measure', dueBy: today, reason: { code: 'not-planned' } });
      // Half a week's days, by the harm of a day in ordinary skin.
      expect(entry?.harmPerWeek).toBe(3.5);
      expect(entry?.reason.text).toContain('Something in the record cannot be right');
    });

    it('waits at three times the harm where the skin cannot warn', () => {
      const record = testRecord({ id: 'p', insensateSkin: true });
      const [entry] = build([record], [throwing(rampForecast('p/d1', 5, 60))]).entries;
      expect(entry).toMatchObject({ reason: { code: 'not-planned' }, harmPerWeek: 3 * 3.5 });
    });

    it('is asked about by what it wears, not by what was laid aside or is to be cast', () => {
      const record = testRecord({ id: 'p' });
      const [worn] = record.devices;
      const devices = [
        worn,
        { ...worn, id: 'p/aside', status: 'retired' as const },
        { ...worn, id: 'p/tomorrow', castDate: '2099-01-01' },
      ];
      const list = build([{ ...record, devices }], [throwing(rampForecast(worn.id, 5, 60))]);
      expect(list.entries.flatMap((e) => e.deviceIds)).toEqual([worn.id]);
    });

    it('keeps its red flag, and says that the skin cannot warn', () => {
      const flag = { id: 'skin-open', severity: 'act-now', deviceId: null } as unknown as Flag;
      const list = buildRecallList(
        [{ childId: 'p', forecasts: [throwing(rampForecast('p/d1', 5, 60))], flags: [flag] }],
        [testRecord({ id: 'p', insensateSkin: true })],
        turnaround,
        { today, rules },
      );
      expect(list.entries[0]).toMatchObject({ action: 'see-now', reason: { code: 'red-flag' } });
      expect(list.entries[0].alerts).toContain('skin-cannot-warn');
    });
  });

  it('looks ahead five weeks from today, whatever the month; a month can be chosen', () => {
    const records = [testRecord({ id: 'a', measuredDaysAgo: 10 })];
    const soon = rampForecast('a/d1', 40, 100);
    const list = build(records, [soon]);
    expect(list.until).toBe(addDaysIso(today, 35));
    expect(list.entries).toHaveLength(1);
    const castBy = list.entries[0].castBy!;
    const early = (d: number) =>
      buildRecallList(
        [{ childId: 'a', forecasts: [{ ...soon, today: addDaysIso(castBy, -d) }] }],
        records,
        turnaround,
        { today: addDaysIso(castBy, -d), rules },
      ).entries.length;
    expect([early(35), early(36)]).toEqual([1, 0]);
    const far = rampForecast('a/d1', 120, 180);
    expect(build(records, [far]).entries).toEqual([]);
    expect(build(records, [far], { month: '2026-09' }).entries).toHaveLength(1);
  });

  it('loses nobody: each active child with a worn device is in exactly one list', () => {
    const records = [
      testRecord({ id: 'due' }),
      testRecord({ id: 'far' }),
      testRecord({ id: 'never-measured', measuredDaysAgo: null, devices: [{ id: 'never-measured/d1' }] }),
      testRecord({ id: 'no-assessment' }),
      testRecord({ id: 'adult', birthDate: '1990-01-01' }),
      testRecord({ id: 'blocked' }),
    ];
    const list = build(records, [
      rampForecast('due/d1', 40, 90),
      rampForecast('far/d1', 700, 900),
      rampForecast('never-measured/d1', 0, 1, 'too-few-measurements'),
      rampForecast('adult/d1', 0, 1, 'adult'),
      rampForecast('blocked/d1', 0, 1, 'blocked'),
    ]);
    expect([...list.entries, ...list.notDue].map((e) => e.childId).sort()).toEqual(
      records.map((r) => r.child.id).sort(),
    );
    expect(Object.fromEntries(list.entries.map((e) => [e.childId, e.action]))).toEqual({
      due: 'cast',
      'never-measured': 'measure',
      'no-assessment': 'measure',
      blocked: 'measure',
    });
  });

  it.each(['moved-away', 'died', 'discharged'] as const)('a child who %s is on no list', (status) => {
    const record = testRecord({ id: 'a' });
    const gone = { ...record, child: { ...record.child, status } };
    for (const forecast of [rampForecast('a/d1', -60, 20), throwing(rampForecast('a/d1', -60, 20))]) {
      const list = build([gone], [forecast]);
      expect([list.entries, list.notDue, list.inProgress]).toEqual([[], [], []]);
    }
  });

  it('a device called ordered though it was fitted is asked about, not lost', () => {
    const odd = { id: 'a/d1', status: 'ordered' as const, castDate: '2025-01-01', fittedDate: '2025-02-01' };
    const list = build([testRecord({ id: 'a', devices: [odd] })], []);
    expect(list.entries).toMatchObject([{ action: 'check', reason: { code: 'never-fitted' } }]);
  });

  it('reviews adults and palliative care by wear, never by growth', () => {
    const worn = { castDate: '2025-01-01', fittedDate: '2025-02-01' };
    const records = [
      testRecord({
        id: 'adult',
        birthDate: '1990-01-01',
        measuredDaysAgo: 360,
        devices: [{ id: 'adult/d1', ...worn }],
      }),
      testRecord({
        id: 'care',
        palliative: true,
        measuredDaysAgo: 360,
        devices: [{ id: 'care/d1', ...worn }],
      }),
      // Not forecast yet: all the same nobody is called in to be measured.
      testRecord({
        id: 'new',
        palliative: true,
        measuredDaysAgo: null,
        devices: [{ id: 'new/d1', ...worn }],
      }),
    ];
    const list = withSentences(
      build(records, [rampForecast('adult/d1', 0, 1, 'adult'), rampForecast('care/d1', 0, 1, 'palliative')]),
      rules,
    );
    expect(list.entries.map((e) => e.action)).toEqual(['review', 'review', 'review']);
    for (const e of list.entries) expect(e.reason.text).not.toMatch(/grow out|too small|never been measured/);
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
    expect(list.notDue[0].reason.code).toBe('being-made-late');
    expect(list.inProgress).toHaveLength(1);
    const percent = Math.round(100 * list.inProgress[0].riskUntilFitted!);
    expect(percent).toBeGreaterThan(33);
    expect(clinicianReason(list.notDue[0].devices[0])).toContain(`with a chance of ${percent} %`);
    expect(list.inProgress[0]).toMatchObject({ deviceId: 'a/d1', replacementDeviceId: 'a/d2', late: true });
    expect(list.inProgress[0].expectedFitting! > today).toBe(true);
    // After 200 days in the workshop nobody knows when: no date is invented.
    expect(build([record(200)], [rampForecast('a/d1', 300, 400)]).inProgress[0]).toMatchObject({
      expectedFitting: null,
      late: true,
    });
  });

  it('makes one visit of two sides that fall due near each other, and one side of it where they do not', () => {
    const record = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', side: 'right' }] });
    const near = withSentences(
      build([record], [rampForecast('a/d1', 40, 90), rampForecast('a/d2', 70, 120)]),
      rules,
    );
    expect(near.entries[0].deviceIds).toEqual(['a/d1', 'a/d2']);
    expect(near.entries[0].reason.text).toContain('both lower leg braces');
    const apart = build([record], [rampForecast('a/d1', 40, 90), rampForecast('a/d2', 400, 500)]);
    expect(apart.entries[0].deviceIds).toEqual(['a/d1']);
    expect(apart.entries[0].otherDevices.map((d) => d.deviceId)).toEqual(['a/d2']);
  });

  it('keeps the usual review even where the forecast sees no need', () => {
    const seen = { castDate: addDaysIso(today, -400), fittedDate: addDaysIso(today, -380) };
    const list = build(
      [
        testRecord({
          id: 'a',
          measuredDaysAgo: 95,
          insensateSkin: true,
          devices: [{ id: 'a/d1', ...seen }],
        }),
      ],
      [rampForecast('a/d1', 700, 900)],
    );
    expect(list.entries[0]).toMatchObject({ childId: 'a', action: 'review', late: true });
  });

  it('gives reasons a parent understands: one sentence, no name, no jargon, one figure at most', () => {
    const list = withSentences(
      build(
        [testRecord({ id: 'a' }), testRecord({ id: 'b', measuredDaysAgo: null, devices: [{ id: 'b/d1' }] })],
        [rampForecast('a/d1', 40, 90), rampForecast('b/d1', 0, 1, 'too-few-measurements')],
      ),
      rules,
    );
    expect(list.entries.find((e) => e.childId === 'a')?.reason.text).toMatch(
      /^Your child will soon grow out of the left lower leg brace; to have the next one ready in time we would like to see you by \d+ \w+ 2026; please ring us sooner if anything rubs, marks or hurts\.$/,
    );
    for (const e of list.entries) {
      expect(e.reason.text).not.toMatch(/z-score|orthosis|AFO|probability|percent|%|risk|palsy/i);
      expect(e.reason.text!.match(/\.( |$)/g)).toHaveLength(1);
      expect(e.reason.text!.match(/\d{4}/g)?.length ?? 0).toBeLessThanOrEqual(1);
    }
  });
});
