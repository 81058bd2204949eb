/** Which days and which limits of a device are looked at, before any future is drawn. */
import { describe, expect, it } from 'vitest';
import { deviceLines } from '../../src/forecast/device/device-lines.js';
import { planDevice } from '../../src/forecast/device/device-plan.js';
import { ownDeviation } from '../../src/forecast/device/own-limit.js';
import { addDaysIso, dayNumber } from '../../src/records/dates.js';
import { deviceEventRecord } from '../../src/records/device.js';
import { type MeasureId, seriesKey } from '../../src/records/measure.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
const rules = loadRules();

describe('the plan of a device', () => {
  const built = buildChild(TODAY, 8, { sex: 'female' })
    .series('foot_length', 'left', [
      [8, 190],
      [2, 194],
      [5, 192],
    ])
    .measured('knee_height', 'left', 8, 330)
    .device('solid-afo', 'left', 8);
  const plan = (follows: (measure: MeasureId) => boolean = () => true, family = 'solid-afo') =>
    planDevice(built.record, built.record.devices[0], rules.get(family)!, follows);
  const kinds = (of: ReturnType<typeof plan>) => [...new Set(of.limits.map((l) => l.series.measure))].sort();

  it('looks from the cast to the horizon beyond the newest reading, whatever order readings are in', () => {
    const { search, knots, rule } = plan();
    const cast = dayNumber(built.day(8));
    const end = dayNumber(built.day(2)) + rule.horizonDays.value;
    for (const days of [search, knots]) expect([days[0], days[days.length - 1]]).toEqual([cast, end]);
  });
  it('looks every week, and every day where a family asks for days', () => {
    const apart = ({ search }: ReturnType<typeof plan>) =>
      Math.max(...search.slice(1).map((d, i) => d - search[i]));
    expect(rules.get('cranial-orthosis')!.resolution).toBe('day');
    expect([apart(plan()), apart(plan(() => true, 'cranial-orthosis'))]).toEqual([7, 1]);
  });
  it('counts what was measured and the model follows, and nothing else', () => {
    expect(kinds(plan())).toEqual(['foot_length', 'knee_height']);
    expect(kinds(plan((measure) => measure !== 'knee_height'))).toEqual(['foot_length']);
    // A maker's limit on what nobody measured says nothing of this child.
    const stated = { ...built.record.devices[0], limitsMm: { foot_breadth: 80 } };
    const limits = planDevice(built.record, stated, rules.get('solid-afo')!, () => true).limits;
    expect(limits.map((l) => l.series.measure).sort()).toEqual(['foot_length', 'knee_height']);
  });
});

describe('the lines of a device', () => {
  // A knee bar let out by 12 mm on the third day searched: the knee's own line from that day on, and the hip's lift with it.
  const built = buildChild(TODAY, 8, { sex: 'male' })
    .series('knee_height', 'left', [
      [8, 330],
      [1, 345],
    ])
    .series('hip_height', 'left', [
      [8, 600],
      [1, 620],
    ])
    .device('kafo', 'left', 8, { extensionRangeMm: { knee_height: 38 } });
  const moved = addDaysIso(built.record.devices[0].castDate, 14);
  const adjusted = deviceEventRecord.parse({
    ...{ id: 'e', deviceId: built.record.devices[0].id, date: moved, kind: 'adjusted' },
    ...{ measure: 'knee_height', side: 'left', changeMm: 12, adjustment: 'side-bar' },
  });
  const record = { ...built.record, events: [adjusted] };
  const plan = planDevice(record, record.devices[0], rules.get('kafo')!, () => true);
  const flat = new Float64Array(plan.knots.length).fill(300);
  const paths = new Map(plan.limits.map((l) => [seriesKey(l.series), flat] as const));
  const open = [
    Float64Array.of(Number.NEGATIVE_INFINITY),
    Float64Array.of(Number.POSITIVE_INFINITY),
  ] as const;
  const own = plan.limits.map((l) => ownDeviation(l.toleranceMm, ...open));
  const lines = deviceLines(plan, { draws: 1, days: plan.knots, paths }, own);
  const of = (measure: string) => plan.limits.findIndex((l) => l.series.measure === measure);

  it('an adjustment counts from its own day on, and not before', () => {
    const { limitMm } = lines.wanted[of('knee_height')];
    const base = rules.get('kafo')!.dimensions.find((d) => d.measure === 'knee_height')!.allowanceMm.value;
    expect([...limitMm.slice(0, 5)].map((mm) => mm - base)).toEqual([0, 0, 12, 12, 12]);
    const left = [...lines.spent[of('knee_height')].limitMm.slice(0, 4)].map((mm, j) => mm - limitMm[j]);
    expect(left).toEqual([38, 38, 26, 26]);
  });
  it('so does what a bar further down has lifted, and what of its travel is left', () => {
    const [lift] = lines.wanted[of('hip_height')].lifts!;
    expect([...lift.givenMm.slice(0, 4)]).toEqual([0, 0, 12, 12]);
    expect([...lift.leftMm.slice(0, 4)]).toEqual([38, 38, 26, 26]);
  });
});
