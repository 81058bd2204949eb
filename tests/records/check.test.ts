import { describe, expect, it } from 'vitest';
import { caseloadFaults } from '../../src/records/check/caseload-faults.js';
import { childFaults } from '../../src/records/check/child-faults.js';
import { deviceFaults, MOST_ROOM_MM } from '../../src/records/check/device-faults.js';
import { eventFaults } from '../../src/records/check/event-faults.js';
import { markerFaults } from '../../src/records/check/marker-faults.js';
import { readingFaults } from '../../src/records/check/reading-faults.js';
import { skinCheckFaults } from '../../src/records/check/skin-check-faults.js';
import { workshopJobFaults } from '../../src/records/check/workshop-job-faults.js';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { fieldLimits } from '../../src/records/field-limits.js';
import { childRecord } from '../../src/records/records.js';
import { familyFacts } from '../../src/rules/family-facts.js';
import { loadRules } from '../../src/rules/load-rules.js';

const BIRTH = '2018-03-01';
const TODAY = '2026-11-25';
const families = familyFacts(loadRules());
const fields = (faults: Iterable<{ field: string }>) => [...faults].map((f) => f.field);

it('a form’s limits are those of the record', () => {
  const { gestationWeeks, contact, name, sex } = childRecord.shape;
  expect(fieldLimits(gestationWeeks)).toEqual({ min: 22, max: 44 });
  expect([contact, name].map((f) => fieldLimits(f).maxLength)).toEqual([400, 200]);
  expect(fieldLimits(sex)).toEqual({});
  for (const field of Object.values(childRecord.shape)) {
    const { maxLength } = fieldLimits(field);
    if (maxLength === undefined) continue;
    const tooLong = (text: string) => field.safeParse(text).error?.issues.some((i) => i.code === 'too_big');
    expect(tooLong('x'.repeat(maxLength))).not.toBe(true);
    expect(tooLong('x'.repeat(maxLength + 1))).toBe(true);
  }
});

describe('a reading', () => {
  const of = (more: object) =>
    fields(
      readingFaults(
        {
          measure: 'foot_length',
          side: 'left',
          value: 190,
          date: TODAY,
          technicalError: null,
          ...more,
        } as never,
        BIRTH,
        TODAY,
      ),
    );
  it('from birth to today, of a size that can be, on a side where there is one', () => {
    expect(of({})).toEqual([]);
    expect(of({ date: BIRTH })).toEqual([]);
    expect(of({ date: '2018-02-28' })).toEqual(['date']);
    expect(of({ date: '2026-11-26' })).toEqual(['date']);
    expect(of({ date: '2099-01-01' })).toEqual(['date']);
    expect(of({ value: 19 })).toEqual(['value']);
    expect(of({ value: 1900 })).toEqual(['value']);
    expect(of({ value: Number.NaN })).toEqual(['value']);
    expect(of({ side: 'none' })).toEqual(['side']);
    expect(of({ measure: 'stature', side: 'left', value: 1200 })).toEqual(['side']);
    expect(of({ technicalError: 100 })).toEqual(['technicalError']);
    expect(of({ technicalError: 0.01 })).toEqual(['technicalError']);
  });
});

describe('a device', () => {
  const of = (more: object) =>
    fields(
      deviceFaults(
        deviceRecord.parse({
          id: 'd',
          childId: 'c',
          family: 'solid-afo',
          side: 'left',
          castDate: '2026-01-01',
          ...more,
        }),
        { birthDate: BIRTH, today: TODAY, families },
      ),
    );
  it('of a family that is there, for one side, cast in the child’s life and fitted after it', () => {
    expect(of({ fittedDate: '2026-01-20' })).toEqual([]);
    expect(of({ family: 'no-such-family' })).toEqual(['family']);
    expect(of({ side: 'both' })).toEqual(['side']);
    expect(of({ family: 'spinal-orthosis', side: 'left' })).toEqual(['side']);
    expect(of({ castDate: '2018-02-01' })).toEqual(['castDate']);
    expect(of({ castDate: '2026-11-26' })).toEqual(['castDate']);
    expect(of({ fittedDate: '2025-12-31' })).toEqual(['fittedDate']);
    expect(of({ status: 'ordered' })).toEqual([]);
    expect(of({ status: 'ordered', fittedDate: '2026-01-20' })).toEqual(['status']);
  });
  it('with room that a person can have meant', () => {
    expect(of({ allowancesMm: { foot_length: MOST_ROOM_MM } })).toEqual([]);
    expect(MOST_ROOM_MM).toBeLessThanOrEqual(300);
    expect(of({ allowancesMm: { foot_length: 99_999 } })).toEqual(['allowancesMm.foot_length']);
    expect(of({ extensionRangeMm: { knee_height: 500 } })).toEqual(['extensionRangeMm.knee_height']);
    expect(of({ limitsMm: { foot_length: 2 } })).toEqual(['limitsMm.foot_length']);
    expect(of({ limitsMm: { foot_length: 2000 } })).toEqual(['limitsMm.foot_length']);
  });
});

describe('what is recorded of a device', () => {
  const of = (kind: string, more: object, side: 'left' | 'both' = 'left') =>
    fields(
      eventFaults(deviceEventRecord.parse({ id: 'e', deviceId: 'd', date: '2026-03-01', kind, ...more }), {
        device: { family: side === 'both' ? 'kafo' : 'solid-afo', side, castDate: '2026-01-01' },
        today: TODAY,
        families,
      }),
    );
  it('a verdict has a verdict, an adjustment possible millimetres or none, and both a day since the cast', () => {
    expect(of('verdict', { verdict: 'good' })).toEqual([]);
    expect(of('verdict', {})).toEqual(['verdict']);
    expect(of('verdict', { note: ' ' })).toEqual(['verdict']);
    expect(of('verdict', { note: 'school rang: sore heel' })).toEqual([]);
    expect(of('verdict', { verdict: 'good', date: '2025-12-31' })).toEqual(['date']);
    expect(of('verdict', { verdict: 'good', date: '2099-01-01' })).toEqual(['date']);
    expect(of('adjusted', {})).toEqual([]);
    expect(of('adjusted', { changeMm: 99_999 })).toEqual(['changeMm']);
    expect(of('adjusted', { changeMm: -99_999 })).toEqual(['changeMm']);
    expect(of('broken', { endReason: 'outgrown' })).toEqual(['endReason']);
  });
  it('about what limits this device, on its side', () => {
    expect(of('verdict', { verdict: 'good', measure: 'head_length' })).toEqual(['measure']);
    expect(of('verdict', { verdict: 'good', measure: 'foot_length', side: 'right' })).toEqual(['side']);
    expect(of('verdict', { verdict: 'good', measure: 'foot_length', side: 'right' }, 'both')).toEqual([]);
    // A measure of the whole body has no side.
    const trunk = deviceEventRecord.parse({
      id: 'e',
      deviceId: 'd',
      date: '2026-03-01',
      kind: 'verdict',
      verdict: 'good',
      measure: families.get('spinal-orthosis')?.measures[0],
      side: 'left',
    });
    const device = { family: 'spinal-orthosis', side: 'none', castDate: '2026-01-01' } as const;
    expect(fields(eventFaults(trunk, { device, today: TODAY, families }))).toEqual(['side']);
  });
});

it('a marker is of the child’s life, and a stage a whole one that there is', () => {
  const marker = (value: number, date: string) =>
    fields(markerFaults({ kind: 'pelvis-stage', date, value, sdYears: null }, BIRTH, TODAY));
  expect(marker(4, '2026-01-10')).toEqual([]);
  expect([marker(6, '2026-01-10'), marker(1.5, '2026-01-10')]).toEqual([['value'], ['value']]);
  expect([marker(4, '2018-02-28'), marker(4, '2026-11-26')]).toEqual([['date'], ['date']]);
});

it('a skin check is of a device of this child, where one is named', () => {
  const of = (deviceId: string | null, owner: string | null) =>
    fields(
      skinCheckFaults(
        { childId: 'c', deviceId, date: '2026-01-10' },
        { birthDate: BIRTH, today: TODAY, device: owner === null ? null : { childId: owner } },
      ),
    );
  expect([of(null, null), of('d', 'c')]).toEqual([[], []]);
  expect([of('d', 'another'), of('d', null)]).toEqual([['deviceId'], ['deviceId']]);
});

it('the stages of a workshop job follow each other', () => {
  const of = (stages: Partial<Record<'cast' | 'rectify' | 'fit', string>>) =>
    fields(workshopJobFaults({ family: 'solid-afo', stages }, { birthDate: BIRTH, today: TODAY, families }));
  expect(of({ cast: '2026-03-01', rectify: '2026-03-08', fit: '2026-03-20' })).toEqual([]);
  expect(of({ cast: '2026-03-01', rectify: '2026-02-28', fit: '2026-03-20' })).toEqual(['stages.rectify']);
  expect(of({ cast: '2017-03-01', fit: '2026-11-26' })).toEqual(['stages.cast', 'stages.fit']);
});

it('a child is born by today, and before anything was measured of it or cast for it', () => {
  expect(fields(childFaults({ birthDate: TODAY }, TODAY, TODAY))).toEqual([]);
  expect(fields(childFaults({ birthDate: '2026-11-26' }, TODAY))).toEqual(['birthDate']);
  expect(fields(childFaults({ birthDate: BIRTH }, TODAY, '2018-02-28'))).toEqual(['birthDate']);
});

it('every kind of record of a caseload is checked, and one of nobody is told', () => {
  const device = { childId: 'c', family: 'solid-afo', side: 'left', castDate: '2026-03-01' };
  const of = (rows: object) =>
    [
      ...caseloadFaults(rows, {
        birthDateOf: (id) => (id === 'c' ? BIRTH : undefined),
        deviceOf: (id) => (id === 'd' ? (device as never) : undefined),
        today: TODAY,
        families,
      }),
    ].map(({ what, field }) => `${what} ${field}`);
  const date = '2026-11-26';
  expect(of({ children: [{ birthDate: date }] })).toEqual(['Child birthDate']);
  expect(of({ markers: [{ childId: 'c', kind: 'menarche', date, value: 0, sdYears: null }] })).toEqual([
    'Marker menarche date',
  ]);
  expect(of({ jobs: [{ deviceId: 'd', family: 'solid-afo', stages: { cast: date } }] })).toEqual([
    'Workshop job stages.cast',
  ]);
  const check = { childId: 'c', deviceId: 'd', date: TODAY };
  expect([of({ skinChecks: [check] }), of({ skinChecks: [{ ...check, date }] })]).toEqual([
    [],
    ['Skin check date'],
  ]);
  expect(of({ measurements: [{ childId: 'x' }] })).toEqual(['Reading childId']);
  expect(of({ events: [{ deviceId: 'x' }] })).toEqual(['Event deviceId']);
});
