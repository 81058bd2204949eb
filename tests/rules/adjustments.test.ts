import { describe, expect, it } from 'vitest';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import type { MeasureId } from '../../src/records/measure.js';
import { clinicRulesJson } from '../../src/rules/clinic-rules.js';
import {
  adjustableLeftOn,
  adjustmentsLeftOn,
  dimensionLimits,
  limitOn,
} from '../../src/rules/dimension-limits.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { measuresWanted } from '../../src/rules/measures-wanted.js';
import { roomLeft } from '../../src/rules/room-left.js';

const rules = loadRules();
const device = (family: string, more: Record<string, unknown> = {}) =>
  deviceRecord.parse({ id: 'd1', childId: 'c1', family, side: 'left', castDate: '2026-01-10', ...more });
const adjusted = (date: string, measure: string, changeMm: number, adjustment: string) =>
  deviceEventRecord.parse({
    id: `${date}-${measure}`,
    deviceId: 'd1',
    date,
    kind: 'adjusted',
    measure,
    changeMm,
    adjustment,
  });
const sizes = (o: Record<string, number>) => new Map(Object.entries(o));
const wearer = (birthDate: string, ...measured: MeasureId[]) => ({ birthDate, measured: new Set(measured) });
const DAY = '2026-08-01';

/** Outcome of one dimension that has grown so far since the cast. */
function outcome(family: string, measure: MeasureId, grownMm: number, more: Record<string, unknown> = {}) {
  const limits = dimensionLimits(rules.get(family)!, device(family, more), []);
  const { series } = limits.find((l) => l.series.measure === measure)!;
  const key = `${measure}/${series.side}`;
  const rooms = roomLeft(limits, sizes({ [key]: 300 }), sizes({ [key]: 300 + grownMm }), DAY);
  return rooms.find((r) => r.series.measure === measure)!.outcome;
}

describe('what still makes room (common practice, no source)', () => {
  it('answers a girth with its straps before it is called outgrown', () => {
    expect(outcome('solid-afo', 'calf_girth', 27)).toBe('adjust');
    expect(outcome('solid-afo', 'calf_girth', 50)).toBe('outgrown');
    // An infant's thigh gains 40 mm in seven weeks: the straps are set out, nothing is cast.
    expect(outcome('hip-abduction-orthosis', 'thigh_girth', 40, { side: 'both' })).toBe('adjust');
    expect(outcome('spinal-orthosis', 'waist_girth', 40, { side: 'none' })).toBe('adjust');
  });

  it('never makes a footplate longer', () => {
    expect(outcome('solid-afo', 'foot_length', 9)).toBe('outgrown');
    expect(outcome('supramalleolar-orthosis', 'foot_length', 7)).toBe('outgrown');
  });

  it('names each way with what is left of its own budget', () => {
    const rule = rules.get('solid-afo')!;
    const left = (events: ReturnType<typeof adjusted>[], on = DAY) => {
      const limits = dimensionLimits(rule, device('solid-afo'), events);
      return adjustmentsLeftOn(limits.find((l) => l.series.measure === 'calf_girth')!, on);
    };
    expect(left([])).toEqual([
      { kind: 'strap', measure: 'calf_girth', side: 'left', leftMm: 20, stepMm: null },
      { kind: 'flare', measure: 'calf_girth', side: 'left', leftMm: 4, stepMm: null },
    ]);
    const strap = adjusted('2026-05-01', 'calf_girth', 15, 'strap');
    expect(left([strap]).map((a) => a.leftMm)).toEqual([5, 4]);
    expect(left([strap], '2026-04-30').map((a) => a.leftMm)).toEqual([20, 4]);
    expect(left([strap, adjusted('2026-06-01', 'calf_girth', 4, 'flare')]).map((a) => a.leftMm)).toEqual([5]);
    // A way the rule does not list is charged to the first.
    expect(left([adjusted('2026-05-01', 'calf_girth', 6, 'other')]).map((a) => a.leftMm)).toEqual([14, 4]);
  });

  it('charges a joint that was moved to the bar, wherever the bar stands among the ways', () => {
    const shipped = rules.get('kafo')!;
    const dimensions = shipped.dimensions.map((d) =>
      d.measure === 'knee_height'
        ? {
            ...d,
            adjustments: [
              ...rules.get('solid-afo')!.dimensions.find((s) => s.measure === 'calf_girth')!.adjustments,
              ...d.adjustments,
            ],
          }
        : d,
    );
    const frame = device('kafo', { extensionRangeMm: { knee_height: 24 } });
    const moved = adjusted('2026-05-01', 'knee_height', 12, 'relocated-joint');
    const limits = dimensionLimits({ ...shipped, dimensions }, frame, [moved]);
    const left = adjustmentsLeftOn(limits.find((l) => l.series.measure === 'knee_height')!, DAY);
    expect(left.map((a) => [a.kind, a.leftMm])).toEqual([
      ['strap', 20],
      ['flare', 4],
      ['side-bar', 12],
    ]);
  });

  it('counts on no bar travel that was not recorded with the device, and on none less than one hole', () => {
    const barLeft = (knee_height: number | undefined) => {
      const frame = device('kafo', { extensionRangeMm: knee_height === undefined ? {} : { knee_height } });
      const limits = dimensionLimits(rules.get('kafo')!, frame, []);
      return adjustableLeftOn(limits.find((l) => l.series.measure === 'knee_height')!, DAY);
    };
    expect(barLeft(undefined)).toBe(0);
    expect(barLeft(5)).toBe(0);
    expect(barLeft(24)).toBe(24);
  });
});

describe('each bar answers for its own joint', () => {
  const kafo = device('kafo', { extensionRangeMm: { knee_height: 24, hip_height: 12 } });
  const limits = dimensionLimits(rules.get('kafo')!, kafo, []);
  const hip = (knee: number, hipGrown: number) =>
    roomLeft(
      limits,
      sizes({ 'knee_height/left': 260, 'hip_height/left': 500 }),
      sizes({ 'knee_height/left': 260 + knee, 'hip_height/left': 500 + hipGrown }),
      DAY,
    ).find((r) => r.series.measure === 'hip_height')!;

  it('has the travel of the hip’s own bar, not the sum of both', () => {
    const limit = limits.find((l) => l.series.measure === 'hip_height')!;
    expect(adjustableLeftOn(limit, DAY)).toBe(12);
  });

  it('lets the knee’s bar lift the thigh section as far as the knee has grown, and no further', () => {
    // 30 mm allowance + 12 mm own travel = 42; the knee's 24 mm count only as far as the knee grew.
    expect(hip(0, 42).outcome).toBe('adjust');
    expect(hip(0, 43).outcome).toBe('outgrown');
    expect(hip(10, 52).outcome).toBe('adjust');
    expect(hip(10, 53).outcome).toBe('outgrown');
    expect(hip(60, 66).outcome).toBe('adjust');
    expect(hip(60, 67).outcome).toBe('outgrown');
  });

  it('counts a lift that was made, once', () => {
    const moved = deviceEventRecord.parse({
      ...adjusted('2026-05-01', 'knee_height', 12, 'side-bar'),
      side: 'left',
    });
    const after = dimensionLimits(rules.get('kafo')!, kafo, [moved]);
    const limit = after.find((l) => l.series.measure === 'hip_height')!;
    expect(limitOn(limit, DAY)).toBe(42);
    expect(adjustableLeftOn(limit, DAY)).toBe(12);
  });
});

describe('which limits count for a child', () => {
  const measuresOf = (family: string, who: ReturnType<typeof wearer>, more: Record<string, unknown> = {}) =>
    dimensionLimits(rules.get(family)!, device(family, more), [], who).map((l) => l.series.measure);

  it('lets no dimension that nobody measured end a device, unless its maker stated a size', () => {
    expect(measuresOf('solid-afo', wearer('2020-01-01', 'foot_length'))).toEqual(['foot_length']);
    expect(measuresOf('solid-afo', wearer('2020-01-01'), { limitsMm: { foot_length: 180 } })).toEqual([
      'foot_length',
    ]);
    expect(measuresOf('solid-afo', wearer('2020-01-01'))).toEqual([]);
  });

  // Dimeglio 2001 (summary): 55 mm of stature a year at 5-10 y, 20 of them trunk: 35 mm of stature is about 13 of trunk.
  it('judges a spinal orthosis by sitting height where it is taken, else by stature in proportion to the trunk', () => {
    const none = { side: 'none' };
    expect(measuresOf('spinal-orthosis', wearer('2015-01-01', 'stature', 'sitting_height'), none)).toEqual([
      'sitting_height',
    ]);
    const allowance = (birthDate: string) =>
      dimensionLimits(
        rules.get('spinal-orthosis')!,
        device('spinal-orthosis', none),
        [],
        wearer(birthDate, 'stature'),
      )[0].baseMm;
    expect(allowance('2018-01-10')).toBe(55);
    expect((allowance('2018-01-10') * 20) / 55).toBeCloseTo(20, 5);
    expect(allowance('2015-01-10')).toBe(35);
  });

  it('takes a clinic’s own allowance for every age', () => {
    const at = '2026-01-01T00:00:00Z';
    const own = loadRules(
      clinicRulesJson([
        {
          family: 'spinal-orthosis',
          measure: 'stature',
          figure: 'allowanceMm',
          mm: 30,
          reason: 'our audit',
          by: 'x',
          at,
        },
      ]),
    );
    const limits = dimensionLimits(
      own.get('spinal-orthosis')!,
      device('spinal-orthosis', { side: 'none' }),
      [],
      wearer('2018-01-10', 'stature'),
    );
    expect(limits[0].baseMm).toBe(30);
  });
});

// Gould and others 1990 (abstract): half a size (4.2 mm) in less than 2 months under 15 months, 2-3 months to 2 years,
// 3-4 months at 2-3 years, 4 months at 3-5 years.
describe('usual lives agree with their own allowances', () => {
  const mmAYear = [
    { at: 1, mm: [25, 32] },
    { at: 1.6, mm: [17, 25] },
    { at: 2.5, mm: [13, 17] },
    { at: 4, mm: [12, 13.5] },
  ];
  it.each(['supramalleolar-orthosis', 'solid-afo', 'articulated-afo', 'foot-orthosis', 'boots-and-bar'])(
    '%s',
    (family) => {
      const rule = rules.get(family)!;
      const { value } = rule.dimensions.find((d) => d.measure === 'foot_length')!.allowanceMm;
      for (const { at, mm } of mmAYear) {
        const life = rule.lifetimeMonths.find((b) => at >= b.fromYears && at < b.toYears)!;
        for (const pace of mm) {
          expect((12 * value) / pace, `${family} at ${at}`).toBeGreaterThanOrEqual(life.low - 0.5);
          expect((12 * value) / pace, `${family} at ${at}`).toBeLessThanOrEqual(life.high + 0.5);
        }
      }
    },
  );
});

describe('rule files', () => {
  it('name every family in English and Spanish, and no abbreviation or name twice', () => {
    const written = [...rules.values()].flatMap((r) =>
      [r.id, ...r.alsoWritten].map((w) => w.toLowerCase().replace(/\W/g, '')),
    );
    expect(written.filter((w, i) => written.indexOf(w) !== i)).toEqual([]);
    for (const { names } of rules.values()) expect(names.es.plain.length).toBeGreaterThan(3);
  });

  it('say of every family what must be measured, and the foot section of a long leg frame is a part of its own', () => {
    for (const rule of rules.values())
      expect(rule.dimensions.filter((d) => d.essential).length, rule.id).toBeGreaterThan(0);
    for (const family of ['kafo', 'hkafo'])
      expect(rules.get(family)!.parts.find((p) => p.id === 'foot-section')).toMatchObject({
        renews: ['foot_length', 'foot_breadth', 'ankle_height', 'malleolar_width'],
        turnaroundDays: { value: 21 },
      });
  });

  it('ask for sitting height only where stature does not stand in for it', () => {
    const brace = deviceRecord.parse({
      id: 'd',
      childId: 'c',
      family: 'spinal-orthosis',
      side: 'none',
      castDate: '2026-01-05',
    });
    const rule = rules.get('spinal-orthosis')!;
    expect(measuresWanted(rule, brace)).toEqual(['sitting_height']);
    expect(measuresWanted(rule, brace, new Set(['stature']))).toEqual([]);
  });
});
