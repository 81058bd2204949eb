import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkLimitChanges } from '../../src/rules/check-limit-changes.js';
import {
  type ClinicLimit,
  type LimitChange,
  type LimitPlace,
  limitChange,
  limitFigures,
} from '../../src/rules/clinic-limits.js';
import { clinicRules, clinicRulesJson } from '../../src/rules/clinic-rules.js';
import { figureOf } from '../../src/rules/figure-of.js';
import { limitBounds } from '../../src/rules/limit-bounds.js';
import { type DeviceGroup, limitReach } from '../../src/rules/limit-reach.js';
import { loadRules } from '../../src/rules/load-rules.js';

const shipped = loadRules();
const foot = { family: 'solid-afo', measure: 'foot_length', figure: 'allowanceMm' } as const;
const change = (given: Partial<LimitChange> = {}): LimitChange => ({
  ...foot,
  mm: 6,
  reason: 'audit of 40 reviews',
  ...given,
});
const limit = (given: Partial<ClinicLimit> = {}): ClinicLimit => ({
  ...foot,
  mm: 6,
  reason: 'audit of 40 reviews',
  by: 'asha',
  at: '2026-02-01T09:00:00.000Z',
  ...given,
});
/** Every place of the shipped rules that a clinic may set. */
const places = [...shipped.values()].flatMap((rule) =>
  rule.dimensions.flatMap(({ measure }) =>
    limitFigures
      .map((figure) => ({ family: rule.id, measure, figure }))
      .filter((p) => figureOf(shipped, p) !== null),
  ),
);

describe('a clinic’s limits over the shipped rules', () => {
  it('change the one figure, with reason, name and day as its source, and nothing else', () => {
    const rules = clinicRules([limit()]);
    expect(figureOf(rules, foot)).toEqual({
      value: 6,
      source: 'this clinic, set by asha on 2026-02-01: audit of 40 reviews',
    });
    const back = structuredClone(rules.get('solid-afo')!);
    back.dimensions.find((d) => d.measure === 'foot_length')!.allowanceMm = figureOf(shipped, foot)!;
    expect(back).toEqual(shipped.get('solid-afo'));
    for (const [id, rule] of shipped) if (id !== 'solid-afo') expect(rules.get(id)).toEqual(rule);
  });

  it('are the shipped rules when nothing is set', () => {
    expect(clinicRulesJson([])).toEqual([]);
    expect(clinicRules([])).toEqual(shipped);
  });

  it('any set of them merges, and the file they export gives the same rules', () => {
    const some = fc
      .subarray(places)
      .map((chosen) =>
        chosen.map((p, i) => limit({ ...p, mm: limitBounds(figureOf(shipped, p)!.value).lowestMm + i / 10 })),
      );
    fc.assert(
      fc.property(some, (limits) => {
        const rules = clinicRules(limits);
        const ownAt = (p: (typeof places)[number]) =>
          limits.find((l) => l.family === p.family && l.measure === p.measure && l.figure === p.figure)?.mm;
        expect(places.map((p) => figureOf(rules, p)?.value)).toEqual(
          places.map((p) => ownAt(p) ?? figureOf(shipped, p)?.value),
        );
        expect(loadRules(JSON.parse(JSON.stringify(clinicRulesJson(limits))))).toEqual(rules);
      }),
      { numRuns: 30, seed: 1 },
    );
  });

  it('outlive a version that no longer ships their place', () => {
    const gone = limit({ family: 'family-of-old' });
    const noSuchFigure = limit({ measure: 'calf_girth', figure: 'allowanceBehindToesMm' });
    expect(clinicRules([gone, noSuchFigure])).toEqual(shipped);
  });
});

describe('a change', () => {
  it('needs a reason', () => {
    expect(limitChange.safeParse(change({ reason: '   ' })).success).toBe(false);
    expect(limitChange.safeParse(change({ reason: ' our audit ' })).data?.reason).toBe('our audit');
  });

  it.each([
    [{ family: 'no-such' }, /'no-such'.*no such family.*solid-afo/],
    [{ measure: 'head_length' }, /'head_length'.*does not limit this family.*foot_length/],
    [
      { measure: 'calf_girth', figure: 'allowanceBehindToesMm' },
      /no such figure.*allowanceMm, tightWithinMm/,
    ],
    [{ mm: 0.8 }, /'0.8'.*slip of unit.*2 to 32 mm/],
    [{ mm: 80 }, /'80'.*slip of unit/],
    [{ mm: 6.25 }, /tenth of a mm/],
    [{ mm: null }, /shipped figure already/],
    [{ mm: 3 }, /'3'.*with 3 mm of room called tight.*less than the allowance of 3 mm/],
  ] as const)('%o is refused with what is accepted', (given, message) => {
    expect(() => checkLimitChanges(shipped, [], [change(given as Partial<LimitChange>)])).toThrow(message);
  });

  it('is judged together with the others and with what stands already', () => {
    const tight = change({ figure: 'tightWithinMm', mm: 2 });
    expect(() => checkLimitChanges(shipped, [], [change({ mm: 3 }), tight])).not.toThrow();
    expect(() => checkLimitChanges(shipped, [limit({ mm: 3 })], [tight])).not.toThrow();
    const back = change({ figure: 'tightWithinMm', mm: null });
    const stands = [limit({ mm: 3 }), limit({ figure: 'tightWithinMm', mm: 2 })];
    expect(() => checkLimitChanges(shipped, stands, [back])).toThrow(/tight at once/);
    expect(() => checkLimitChanges(shipped, stands, [back, change({ mm: null })])).not.toThrow();
    const spread = (mm: number) => [change({ mm: 5 }), change({ figure: 'toleranceMm', mm })];
    expect(() => checkLimitChanges(shipped, [], spread(5))).toThrow(
      /spread of 5 mm.*below the allowance of 5/,
    );
    expect(() => checkLimitChanges(shipped, [], spread(4.9))).not.toThrow();
    expect(() => checkLimitChanges(shipped, [], [change(), change({ mm: 7 })])).toThrow(/changed twice/);
  });

  it('may be the shipped figure itself: a clinic can sign it as its own', () => {
    for (const p of places)
      expect(() =>
        checkLimitChanges(
          shipped,
          [],
          [change({ ...p, mm: Math.round(10 * figureOf(shipped, p)!.value) / 10 })],
        ),
      ).not.toThrow();
  });
});

describe('how many devices a figure decides about', () => {
  const group = (given: Partial<DeviceGroup>): DeviceGroup => ({
    family: 'solid-afo',
    footplate: 'full',
    stated: [],
    devices: 1,
    ...given,
  });
  const groups = [
    group({ devices: 10 }),
    group({ footplate: 'behind-toes', devices: 100 }),
    group({ stated: ['foot_length'], devices: 1000 }),
    group({ footplate: 'none', devices: 10_000 }),
    group({ family: 'kafo', devices: 100_000 }),
  ];
  it.each([
    ['foot_length', 'allowanceMm', 10],
    ['foot_length', 'allowanceBehindToesMm', 100],
    ['foot_length', 'toleranceMm', 1110],
    ['knee_height', 'allowanceMm', 11_110],
    ['head_length', 'allowanceMm', 0],
  ] as const)('%s %s: %i', (measure, figure, devices) => {
    expect(limitReach(shipped, groups, [{ family: 'solid-afo', measure, figure }])).toBe(devices);
  });

  it('of several figures, counts a device once', () => {
    const of = (figure: LimitPlace['figure']) =>
      ({ family: 'solid-afo', measure: 'foot_length', figure }) as const;
    expect(limitReach(shipped, groups, [of('allowanceMm'), of('allowanceBehindToesMm')])).toBe(110);
    expect(limitReach(shipped, groups, [of('allowanceMm'), of('toleranceMm')])).toBe(1110);
  });
});

it.each([
  [0, true],
  [1000, true],
  [null, true],
  [-0.1, false],
  [1000.5, false],
])('a figure of %d mm is taken: %s', (mm, taken) => {
  const change = { family: 'kafo', measure: 'knee_height', figure: 'allowanceMm', mm, reason: 'our audit' };
  expect(limitChange.safeParse(change).success).toBe(taken);
  expect(limitChange.safeParse({ ...change, reason: '  no ' }).success).toBe(false);
});
