/** What a device's record says before any sum, and what counts of it on a day. */
import { describe, expect, it } from 'vitest';
import { heldAgainstVerdicts } from '../../src/forecast/device/held-against-verdicts.js';
import { namedOutcome } from '../../src/forecast/device/named-outcome.js';
import { usualLife } from '../../src/forecast/device/usual-life.js';
import { recordUntil } from '../../src/forecast/record-until.js';
import { addDaysIso } from '../../src/records/dates.js';
import { deviceHistory } from '../../src/records/device-history.js';
import { skinCheckRecord } from '../../src/records/skin-check.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
const rule = loadRules().get('solid-afo')!;
const girl = (more: Record<string, unknown> = {}, age = 8) =>
  buildChild(TODAY, age, { sex: 'female', ...more });
type Built = ReturnType<typeof girl>;
const withAfo = (built: Built, more: Record<string, unknown> = {}) =>
  built.measured('foot_length', 'left', 8, 195).device('solid-afo', 'left', 8, more);
const outcomeOf = ({ record }: Built) =>
  namedOutcome(record, record.devices[0], deviceHistory(record.devices[0], record.events), TODAY)?.outcome;

describe('without a sum', () => {
  it('a device of a child under this clinic that is worn and grows has none', () => {
    expect(outcomeOf(withAfo(girl()))).toBeUndefined();
  });
  it('moved away, retired by word or by event: not in use; then comfort care; then adult', () => {
    for (const status of ['moved-away', 'discharged'])
      expect(outcomeOf(withAfo(girl({ status, palliative: true })))).toBe('not-in-use');
    expect(outcomeOf(withAfo(girl(), { status: 'retired' }))).toBe('not-in-use');
    expect(outcomeOf(withAfo(girl()).event('retired', 1))).toBe('not-in-use');
    expect(outcomeOf(withAfo(girl({ palliative: true })))).toBe('palliative');
    expect(outcomeOf(withAfo(girl({}, 20.1)))).toBe('adult');
    expect(outcomeOf(withAfo(girl({}, 19.9)))).toBeUndefined();
  });
});

it('usual life is counted from the fitting, from the sooner end to the later', () => {
  const { record } = withAfo(girl());
  const [device] = record.devices;
  const band = rule.lifetimeMonths.find((b) => b.fromYears <= 7 && 7 < b.toYears)!;
  const from = device.fittedDate!;
  expect(usualLife({ rule, history: deviceHistory(device, []) }, record.child.birthDate)).toEqual({
    from: addDaysIso(from, band.low * 30.44),
    to: addDaysIso(from, band.high * 30.44),
  });
});

it('what is dated after a day says nothing on it', () => {
  const built = withAfo(girl()).event('verdict', 2, { verdict: 'good' }).event('broken', -1);
  const { record } = built.measured('foot_length', 'left', -1, 205);
  const skin = (days: number) =>
    skinCheckRecord.parse({
      id: `s${days}`,
      childId: 'child-1',
      date: addDaysIso(TODAY, days),
      state: 'open',
    });
  const [device] = record.devices;
  const seen = recordUntil(
    {
      ...record,
      skinChecks: [skin(0), skin(1)],
      devices: [{ ...device, fittedDate: addDaysIso(TODAY, 2) }],
    },
    TODAY,
  );
  expect(seen.events.map((e) => e.kind)).toEqual(['verdict']);
  expect(seen.skinChecks.map((s) => s.id)).toEqual(['s0']);
  expect(seen.measurements).toHaveLength(1);
  expect(seen.devices[0].fittedDate).toBeNull();
  expect(recordUntil(record, addDaysIso(TODAY, 60)).events).toHaveLength(2);
});

describe('a forecast', () => {
  const assessed = (built: Built) => built.assess({ draws: 64 }).forecasts[0];
  const afo = (...rows: [number, number][]) =>
    girl().series('foot_length', 'left', rows).device('solid-afo', 'left', 12);
  it('of a device outgrown by its readings names no day to come', () => {
    const f = assessed(afo([12, 190], [0.1, 199]));
    expect(f.outcome).toBe('already-outgrown');
    for (const day of [f.p10, f.p50, f.p90]) if (day !== null) expect(day <= TODAY).toBe(true);
    expect(f.p90).toBeNull();
    expect(f.explanation).toContain('Check fit and skin now.');
  });
  it('rests on readings: eleven months without one are too few, and a halt that two readings show is no end of growth', () => {
    const roomy = girl()
      .series('foot_length', 'left', [
        [12, 195],
        [11, 196],
      ])
      .device('solid-afo', 'left', 12, { allowancesMm: { foot_length: 30 } });
    expect(assessed(roomy).outcome).toBe('too-few-measurements');
    const halted = girl().series('foot_length', 'left', [
      [12, 196],
      [6.5, 204],
      [0.5, 204.5],
    ]);
    expect(assessed(halted.device('solid-afo', 'left', 6.5)).outcome).toBe('forecast');
  });
  it('carries the last word on the fit, whatever was done after it', () => {
    const f = assessed(
      afo([12, 195], [1, 199])
        .event('verdict', 6, { verdict: 'good' })
        .event('verdict', 3, { verdict: 'tight' })
        .event('adjusted', 2, { measure: 'foot_breadth', changeMm: 2, adjustment: 'flare' }),
    );
    expect(f.lastVerdict?.verdict).toBe('tight');
  });
});

it('a verdict on the day of a change is one on the device before it', () => {
  const { record } = girl().device('solid-afo', 'left', 12);
  const [device] = record.devices;
  const on = (days: number) => addDaysIso(device.fittedDate!, days);
  const event = (kind: string, more: object = {}) =>
    ({
      id: kind,
      deviceId: device.id,
      kind,
      date: on(150),
      verdict: null,
      adjustment: null,
      ...more,
    }) as never;
  const kept = { deviceId: device.id, outcome: 'forecast' as const };
  const { dates } = heldAgainstVerdicts(
    [device],
    [event('verdict', { verdict: 'outgrown' }), event('adjusted', { adjustment: 'flare' })],
    [{ ...kept, today: on(10), p10: on(60), p50: on(160), p90: on(260) }],
    on(300),
  );
  expect(dates.map((d) => [d.outgrown, d.between, d.unknown])).toEqual([
    [0, 1, 0],
    [1, 0, 0],
    [1, 0, 0],
  ]);
});
