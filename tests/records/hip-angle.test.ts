import { expect, it } from 'vitest';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { hasHipAngle, lastHipAngle, saysOfFit } from '../../src/records/hip-angle.js';

const set = { hipAngleFrom: 40, hipAngleTo: 60 };
const brace = (more: Record<string, unknown> = {}) =>
  deviceRecord.parse({
    ...{ id: 'd', childId: 'c', family: 'hip-abduction-orthosis', side: 'both', castDate: '2026-09-01' },
    ...more,
  });
const found = (date: string, left: number | null, right: number | null, deviceId = 'd') =>
  deviceEventRecord.parse({
    ...{ id: date, deviceId, date, kind: 'verdict', verdict: 'good' },
    ...{ hipAngleLeft: left, hipAngleRight: right },
  });

it.each([
  [40, 60, false],
  [39, 60, true],
  [45, 61, true],
  [null, 61, true],
  [null, 45, false],
])('left at %s and right at %s, set from 40 to 60: outside %s', (left, right, isOff) => {
  expect(lastHipAngle(brace(set), [found('2026-11-01', left, right)])).toEqual({
    date: '2026-11-01',
    left,
    right,
    isOff,
  });
});

it('the last reading of each side counts, in whatever order they were typed, and of this device alone', () => {
  const events = [
    found('2026-11-10', 45, null),
    found('2026-11-01', 30, 30),
    found('2026-11-20', 10, 10, 'another'),
  ];
  expect(lastHipAngle(brace(set), events)).toMatchObject({ date: '2026-11-10', left: 45, right: 30 });
  expect(lastHipAngle(brace(set), [found('2026-11-01', null, null)])).toBeNull();
});

it('is never outside what nobody set', () => {
  const low = [found('2026-11-01', 5, 5)];
  expect(lastHipAngle(brace(), low)?.isOff).toBe(false);
  expect(lastHipAngle(brace({ hipAngleFrom: 40 }), low)?.isOff).toBe(true);
  expect(lastHipAngle(brace({ hipAngleTo: 40 }), low)?.isOff).toBe(false);
});

it('an angle alone says something of the fit, and so does a note; of neither there is nothing to keep', () => {
  const nothing = { verdict: null, note: ' ' };
  expect(saysOfFit(nothing)).toBe(false);
  expect(saysOfFit({ ...nothing, hipAngleRight: 0 })).toBe(true);
  expect(saysOfFit({ ...nothing, note: 'marks' })).toBe(true);
  expect(saysOfFit({ ...nothing, verdict: 'good' })).toBe(true);
  expect([hasHipAngle({ hipAngleLeft: 0 }), hasHipAngle({ hipAngleLeft: null })]).toEqual([true, false]);
});
