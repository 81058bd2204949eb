/** What a device asks for where two answers are near each other. Days and chances are reckoned by hand. */
import { describe, expect, it } from 'vitest';
import type { DeviceForecast, Flag } from '../../src/forecast/contract.js';
import { adjustByReadings } from '../../src/recall/decide/adjust-by-readings.js';
import { adjustStep } from '../../src/recall/decide/adjust-step.js';
import { plannedWait } from '../../src/recall/decide/cast-by.js';
import { checkFigure } from '../../src/recall/decide/check-figure.js';
import { firstLookBy } from '../../src/recall/decide/first-look.js';
import { lastSeen } from '../../src/recall/decide/last-seen.js';
import { recallSettings } from '../../src/recall/decide/recall-settings.js';
import { replacementInProgress } from '../../src/recall/decide/replacement-in-progress.js';
import { roomsByReadings } from '../../src/recall/decide/room-by-readings.js';
import { successorOf } from '../../src/recall/decide/successor-of.js';
import { castsJoinUntil } from '../../src/recall/decide/visit-of.js';
import { addDaysIso } from '../../src/records/dates.js';
import { measurementRecord } from '../../src/records/records.js';
import { entryOf, event, far, flag, rising, rules, testRecord, today, turnaround } from './build-a-clinic.js';

const day = (days: number) => addDaysIso(today, days);
const record = testRecord({ id: 'a' });
const numb = testRecord({ id: 'a', insensateSkin: true });
const settings = recallSettings.parse({});
const wait = Math.ceil(plannedWait(turnaround('solid-afo'), settings.fitWaitDays));
const reading = (id: string, days: number, value: number, measure = 'foot_length') =>
  measurementRecord.parse({ id, childId: 'a', measure, side: 'left', value, date: day(days) });
const room = (more: object = {}) => ({
  series: { measure: 'foot_length', side: 'left' },
  allowanceMm: 12,
  roomMm: 6,
  extensionLeftMm: 0,
  paceMmAYear: 12,
  paceSdMmAYear: 3,
  ...more,
});
const said = (verdict: string, days: number, measure: string | null = null) =>
  ({ date: day(days), verdict, measure, side: null }) as DeviceForecast['lastVerdict'];
const found = (kind: string, days = 0) =>
  flag({
    severity: 'check',
    deviceId: 'a/d1',
    finding: { kind, date: day(days) } as Flag['finding'],
  });
const lasting = (more: Partial<DeviceForecast> | object, from = 900, to = 1200) =>
  rising('a/d1', from, to, more as Partial<DeviceForecast>);

describe('what a note says', () => {
  it('of a loss is a loss, of a breakage a breakage', () => {
    for (const kind of ['lost', 'broken'])
      expect(entryOf(record, [far('a/d1')], [found(kind, -3)])).toMatchObject({
        action: 'repair',
        reason: { code: kind, numbers: { on: day(-3) } },
      });
  });

  it('is not answered by a later word that it is tight or outgrown', () => {
    expect(
      entryOf(record, [lasting({ lastVerdict: said('tight', 0) })], [found('skin-mark', -1)]),
    ).toMatchObject({ reason: { code: 'noted' } });
    expect(
      entryOf(record, [lasting({ lastVerdict: said('loose', 0) })], [found('skin-mark', -1)]).reason.code,
    ).not.toBe('noted');
  });
});

describe('a device in whose place another is worn', () => {
  const of = (replaces: string | null) =>
    entryOf(
      testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', castDate: day(-90), replaces }] }),
      [far('a/d1'), far('a/d2')],
    );
  const codeOf = (entry: ReturnType<typeof of>) =>
    [...entry.devices, ...entry.otherDevices].find((d) => d.deviceId === 'a/d1')?.reason.code;
  it('asks for nothing once it was cast for it, though it fits; two of a kind may be worn in turn', () => {
    expect(codeOf(of('a/d1'))).toBe('replaced');
    expect(codeOf(of(null))).not.toBe('replaced');
    // Cast on one day for one side, to be worn in turn: neither of them is the newer one.
    const alike = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2' }] });
    for (const device of alike.devices) expect(successorOf(device, alike, today)).toBeNull();
  });
});

describe('cast at once or looked at first', () => {
  it('a visit that finds it needed with seven in ten looks first, where the skin cannot warn as well', () => {
    // To be cast by about day 10 at one in seven; the review after it, 91 days on, would come at 24 + 91 of 170 days: 68 %.
    const numbCase = [rising('a/d1', wait - 14, wait + 156)];
    expect(entryOf(numb, numbCase, [], { month: '2026-09' })).toMatchObject({
      action: 'check',
      reason: { code: 'cast-due' },
    });
  });

  it('is not left to the usual review where it is plainly needed', () => {
    // A third on day 40, the even chance on day 44, and a review in twelve days.
    const seen = testRecord({ id: 'a', measuredDaysAgo: 125 });
    const entry = entryOf(seen, [rising('a/d1', 32, 56)], [], { settings: { fitWaitDays: 0 } });
    expect(entry.devices[0].reviewBy).toBe(day(12));
    expect(entry.action).toBe('cast');
  });

  it('is not left to the usual review once the accepted chance is passed', () => {
    // Of an even rise over 600 days a third was passed ten days ago; one half is 90 days off, and a review in twelve days.
    const seen = testRecord({ id: 'a', measuredDaysAgo: 125 });
    expect(entryOf(seen, [rising('a/d1', -210, 390)])).toMatchObject({
      action: 'check',
      reason: { code: 'cast-late' },
    });
  });

  it('is left to the usual review where that comes before half as much again of the accepted chance', () => {
    // To be cast by day 5 at one in three; the even chance, which is also the last day for a look, on day 45.
    const from = 5 + wait - 80;
    const seen = testRecord({ id: 'a', measuredDaysAgo: 125 });
    expect(entryOf(seen, [rising('a/d1', from, from + 240)])).toMatchObject({
      action: 'review',
      dueBy: day(12),
    });
    const unseen = testRecord({ id: 'a', measuredDaysAgo: 80 });
    expect(entryOf(unseen, [rising('a/d1', from, from + 240)]).action).toBe('check');
  });

  it('is asked of a visit today where the day to cast by is past', () => {
    // To be cast by 55 days ago. Today: the review 137 days on and the wait after it come at 292 of 300 days, 97 %; then at 79 %.
    const from = -55 + wait - 100;
    expect(entryOf(record, [rising('a/d1', from, from + 300)])).toMatchObject({
      action: 'cast',
      castBy: day(-55),
    });
  });

  it('a word that it fits outweighs the readings before it', () => {
    const castDate = day(-150);
    const built = testRecord({ id: 'a', devices: [{ id: 'a/d1', castDate }] });
    const measurements = [reading('m1', -150, 170), reading('m2', -3, 181)];
    const of = (days: number) =>
      entryOf({ ...built, measurements }, [
        lasting({ room: [room({ paceMmAYear: 1 })], lastVerdict: said('good', days) }),
      ]).reason.code;
    expect(of(-10)).toBe('readings-say-less');
    expect(of(-3)).not.toBe('readings-say-less');
  });

  it('is late from the day after the day to cast by, not before', () => {
    const at = (from: number) => entryOf(record, [rising('a/d1', from, from + 60)]);
    expect(at(30).reason.code).toBe('cast-due');
    const late = at(-15);
    expect(late).toMatchObject({ reason: { code: 'cast-late' }, tooLateSince: late.castBy });
    // Beyond use it is said to be that, and not too late as well.
    expect(at(-60)).toMatchObject({ tooLateSince: null, beyondUseSince: day(-30) });
    expect(at(-30)).toMatchObject({ beyondUseSince: today, daysBeyondUse: 0 });
  });
});

describe('grown up and worn out', () => {
  it('grown up with more chance than is accepted of having outgrown it is looked at', () => {
    const grown = (probabilityOutgrownNow: number) =>
      entryOf(record, [
        lasting({ outcome: 'full-grown', dates: [], probabilityOutgrown: [], probabilityOutgrownNow }),
      ]);
    expect(grown(0.4)).toMatchObject({ action: 'check', reason: { code: 'cast-due' } });
    expect(grown(0.2).action).not.toBe('check');
  });

  it('at the end of its usual life it is looked at, unless it was lately; not in comfort care', () => {
    const ends = { usualLifeEnds: { from: day(-60), to: day(10) } };
    const events = (days: number) => [event('verdict', { verdict: 'good', date: day(days) })];
    const of = (days: number, r = record) =>
      entryOf({ ...r, events: events(days) }, [lasting(ends)]).reason.code;
    expect(of(-100)).toBe('usual-life-over');
    expect(of(-20)).not.toBe('usual-life-over');
    expect(of(-100, testRecord({ id: 'a', palliative: true }))).not.toBe('usual-life-over');
  });
});

describe('a reading that is too old', () => {
  const readingNeeded = { why: 'readings-too-old', measure: 'foot_length', side: 'left', date: day(-300) };
  it('is wanted since the review that was missed, today where none was', () => {
    const of = (measuredDaysAgo: number) =>
      entryOf(testRecord({ id: 'a', measuredDaysAgo }), [
        lasting({ readingNeeded, outcome: 'too-few-measurements' }),
      ]);
    expect(of(30)).toMatchObject({ action: 'measure', dueBy: today });
    // Fitted 179 days ago, and 137 days are usual at seven.
    expect(of(400).dueBy).toBe(day(-179 + 137));
  });
  it('of one dimension waits until something hangs on it', () => {
    expect(entryOf(record, [lasting({ readingNeeded })]).action).not.toBe('measure');
    expect(entryOf(record, [lasting({ readingNeeded }, 20, 60)]).action).toBe('measure');
  });
});

describe('who was last seen', () => {
  it('what is broken or lost is told on the telephone, and a day to come is no visit', () => {
    const events = (kind: string, days: number, said = kind === 'verdict' ? { verdict: 'good' } : {}) => ({
      ...record,
      events: [event(kind, { date: day(days), ...said })],
    });
    for (const kind of ['broken', 'lost']) expect(lastSeen(events(kind, -2), today)).toBe(day(-30));
    expect(lastSeen(events('verdict', -2), today)).toBe(day(-2));
    expect(lastSeen(events('verdict', 2), today)).toBe(day(-30));
    expect(lastSeen(events('verdict', -2, { note: 'rang: it rubs' } as never), today)).toBe(day(-30));
    expect(lastSeen(events('verdict', -2, { hipAngleLeft: 40 } as never), today)).toBe(day(-2));
  });
});

// Within one to four weeks of the fitting, sooner where the family's usual review is: common practice, no source.
describe('the first look at a new device', () => {
  const fitted = (fittedDate: string, more: object = {}) =>
    testRecord({
      id: 'a',
      measuredDaysAgo: null,
      devices: [{ id: 'a/d1', castDate: day(-30), fittedDate, ...more }],
    });
  const lookBy = (of: ReturnType<typeof testRecord>, usualDays: number, castDate = day(-30)) =>
    firstLookBy(of.devices[0], { castDate } as never, of, usualDays, today);
  it('is within four weeks, and no later than the usual review', () => {
    expect(lookBy(fitted(day(-3)), 91)).toBe(day(25));
    expect(lookBy(fitted(day(-3)), 14)).toBe(day(11));
  });
  it('is counted from the first fitting of this cast, not of the one before', () => {
    const recast = fitted(day(-40));
    const handedOver = { ...recast, events: [event('delivered', { date: day(-2) })] };
    expect(lookBy(handedOver, 91)).toBe(day(26));
    expect(lookBy(recast, 91)).toBeNull();
  });
});

describe('the figure at the bench', () => {
  const figure = (more: object, accepted = 1 / 3) =>
    checkFigure(lasting({ room: [room(more)] }), accepted, today, 90, 30)?.castIfRoomAtMostMm;
  it('is rounded up, and counts no more spread than the pace itself', () => {
    // 12 mm x (1 + 0.4307 x 1/4) x 120 / 365.25 = 4.4; 2 mm a year with an SD of 20 counts as one with an SD of 2: 0.94.
    expect(figure({})).toBe(5);
    expect(figure({ paceMmAYear: 20, paceSdMmAYear: 200 })).toBe(10);
    // Less chance accepted, more room wanted: 12 x (1 + 1.2816 x 1/4) x 120 / 365.25 = 5.2.
    expect(figure({}, 0.1)).toBe(6);
  });
});

describe('an adjustment', () => {
  const due = (stepMm: number | null, left: number) => ({
    series: { measure: 'knee_height', side: 'left' },
    kind: 'side-bar',
    stepMm,
    dueNow: true,
    p10: null,
    p50: null,
    days: Array.from({ length: 19 }, () => today),
    extensionLeftMm: left,
  });
  const knee = room({
    series: { measure: 'knee_height', side: 'left' },
    roomMm: 20,
    extensionLeftMm: 20,
    paceMmAYear: 18.2625,
  });
  const step = (stepMm: number | null, left = 20) =>
    adjustStep(lasting({ room: [knee], adjustments: [due(stepMm, left)] }), 1 / 3, today, 100);
  it('lasts over the review after the next, what bars can still give not counted as room', () => {
    // 18.2625 mm a year x 200 days = 10 mm, and no room but the bar's.
    expect(step(null)).toMatchObject({ mm: 10, by: today });
    expect(step(4)).toMatchObject({ steps: 3, mm: 12 });
    expect(step(4, 7)).toMatchObject({ steps: 1, mm: 4 });
  });

  it('that falls due before the review brings it forward', () => {
    const soon = { ...due(null, 20), days: Array.from({ length: 19 }, () => day(50)) };
    const { devices } = entryOf(record, [lasting({ room: [knee], adjustments: [soon] })]);
    expect(devices[0].reviewBy).toBe(day(50));
  });

  it('is done with a part that has no room left, which gives the visit its name', () => {
    const kafo = testRecord({ id: 'a', devices: [{ id: 'a/d1', family: 'kafo' }] });
    const late = { ...due(null, 20), days: Array.from({ length: 19 }, () => day(-60)) };
    const parts = (last: number) => [
      { part: 'foot-section', days: Array.from({ length: 19 }, (_, i) => day(last - 19 + i)) },
    ];
    const action = (last: number) =>
      entryOf(kafo, [lasting({ room: [knee], adjustments: [late], parts: parts(last) })]).action;
    expect(action(5)).toBe('renew-part');
    expect(action(20)).toBe('adjust');
  });

  it('of a size without a curve is asked for once its readings leave no more than the limit’s SD', () => {
    const rule = [...rules.values()].find((r) =>
      r.dimensions.some((d) => d.measure === 'malleolar_width' && d.adjustments.length > 0),
    )!;
    const dimension = rule.dimensions.find((d) => d.measure === 'malleolar_width')!;
    const device = { ...record.devices[0], family: rule.id };
    const of = (leftMm: number) =>
      adjustByReadings(
        roomsByReadings(
          rule,
          device,
          {
            ...record,
            measurements: [
              reading('m1', -200, 50, 'malleolar_width'),
              reading('m2', 0, 50 + dimension.allowanceMm.value - leftMm, 'malleolar_width'),
            ],
          },
          device.castDate,
          today,
        ),
        lasting({ room: [] }),
        today,
      );
    const sd = dimension.toleranceMm.value;
    expect(of(sd + 0.1)).toBeNull();
    expect(of(sd - 0.1)).toMatchObject({ measure: 'malleolar_width', mm: 3, by: today });
  });
});

describe('the next on its way', () => {
  const next = { id: 'a/d2', status: 'ordered' as const, fittedDate: null };
  const job = (more: object) => ({
    id: 'j',
    deviceId: 'a/d1',
    family: 'solid-afo',
    stages: { cast: day(-4) },
    status: 'in-progress',
    note: '',
    ...more,
  });
  const of = (devices: object[], jobs: object[] = []) => {
    const built = testRecord({ id: 'a', devices: devices as never, jobs: jobs as never });
    return replacementInProgress(built.devices[0], built, rules, today);
  };
  it('was cast after the one that is worn', () => {
    expect(of([{ id: 'a/d1' }, { ...next, castDate: day(-4) }])?.device.id).toBe('a/d2');
    expect(of([{ id: 'a/d1' }, { ...next, castDate: day(-201) }])).toBeNull();
  });
  it('or is a job of its own that the workshop still has, counted from that cast', () => {
    expect(of([{ id: 'a/d1' }], [job({})])?.device.id).toBe('a/d1');
    expect(of([{ id: 'a/d1' }], [job({ status: 'cancelled' })])).toBeNull();
    expect(of([{ id: 'a/d1' }], [job({ stages: { cast: day(-190) } })])).toBeNull();
    const recast = testRecord({ id: 'a', jobs: [job({})] as never });
    expect(entryOf(recast, [far('a/d1')]).devices[0].reason).toMatchObject({ code: 'being-made' });
    // 160 days in the workshop: longer than any was, and asked about.
    const long = testRecord({ id: 'a', jobs: [job({ stages: { cast: day(-160) } })] as never });
    expect(entryOf(long, [far('a/d1')]).reason).toMatchObject({
      code: 'never-fitted',
      numbers: { on: day(-160) },
    });
  });
});

describe('one visit for two devices', () => {
  const wanted = (action: string, castBy: number) =>
    ({ action, castBy: day(castBy), reviewBy: day(castBy - 30) }) as never;
  it('a second cast joins so many days after the day the first is to be cast by, looked at first or not', () => {
    const until = (...all: never[]) => castsJoinUntil(all, day(35), 28);
    expect(until(wanted('cast', 10), wanted('cast', 20))).toBe(day(38));
    expect(until(wanted('check', 10))).toBe(day(38));
    expect(until(wanted('review', 10))).toBeNull();
    // A check today for a mark, its own cast months away, is no visit to cast another device early.
    expect(until(wanted('check', 114))).toBeNull();
    expect(until(wanted('cast', 114))).toBe(day(142));
  });
  it('what only comes along gives it neither its name nor its sentence', () => {
    const both = testRecord({ id: 'a', devices: [{ id: 'a/d1' }, { id: 'a/d2', side: 'right' }] });
    // A third at day 20, two thirds at the review after: looked at. Of the right a cast is due on day 67, after the list's last.
    const right = rising('a/d2', wait + 60, wait + 80);
    const entry = entryOf(both, [rising('a/d1', wait - 113, wait + 287), right]);
    expect(entry.devices.map((d) => [d.deviceId, d.action])).toEqual([
      ['a/d1', 'check'],
      ['a/d2', 'cast'],
    ]);
    expect(entry).toMatchObject({ action: 'check', reason: { code: 'cast-due' } });
  });
  it('is late from the day after it is due', () => {
    const due = (days: number) =>
      entryOf(testRecord({ id: 'a', measuredDaysAgo: 137 + days }), [far('a/d1')]);
    expect(due(0)).toMatchObject({ action: 'review', dueBy: today, late: false });
    expect(due(1)).toMatchObject({ action: 'review', dueBy: day(-1), late: true });
  });
});

it('a cast is plain where the next review and the wait after it would find it outgrown, not the review alone', () => {
  expect(entryOf(record, [rising('a/d1', -180, 230)]).action).toBe('cast');
  expect(entryOf(record, [rising('a/d1', -220, 270)]).action).toBe('check');
});
