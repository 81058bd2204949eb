import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Device, familyIds } from '../../src/records/device.js';
import type { MeasureId } from '../../src/records/measure.js';
import { reviewIntervalDays, usualLifetimeMonths } from '../../src/rules/by-age.js';
import type { FitRules } from '../../src/rules/fit-rule.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { measuresWanted } from '../../src/rules/measures-wanted.js';

const rules = loadRules();
const dimension = (all: FitRules, family: string, measure: string) =>
  all.get(family)!.dimensions.find((d) => d.measure === measure)!;

/** Every object with a number or a text of its own must say who says so. */
function withoutSource(node: unknown, path: string): string[] {
  if (Array.isArray(node)) return node.flatMap((x, i) => withoutSource(x, `${path}[${i}]`));
  if (typeof node !== 'object' || node === null) return [];
  const o = node as Record<string, unknown>;
  const claims = 'value' in o || 'text' in o || 'days' in o || 'low' in o || 'term' in o;
  const missing = claims && String(o.source ?? '').length < 4 ? [path] : [];
  return [...missing, ...Object.entries(o).flatMap(([k, v]) => withoutSource(v, `${path}.${k}`))];
}

it('wants what a device cannot be judged without, and no foot where the plate ends before it', () => {
  const wanted = (family: string, footplate: Device['footplate'], ...measured: MeasureId[]) =>
    measuresWanted(rules.get(family)!, { footplate } as Device, new Set(measured));
  expect(wanted('kafo', 'full')).toEqual(['knee_height', 'foot_length']);
  expect(wanted('kafo', 'none')).toEqual(['knee_height']);
  // Stature stands in for sitting height once it was read, and not before.
  expect(wanted('spinal-orthosis', 'none')).toEqual(['sitting_height']);
  expect(wanted('spinal-orthosis', 'none', 'stature')).toEqual([]);
});

describe('fit rules', () => {
  it('has every built-in family, each figure with its source', () => {
    expect([...rules.keys()].sort()).toEqual([...familyIds].sort());
    const files = readdirSync(new URL('../../src/rules/families', import.meta.url));
    expect(files.map((name) => name.replace('.json', '')).sort()).toEqual([...familyIds].sort());
    for (const rule of rules.values()) expect(withoutSource(rule, rule.id)).toEqual([]);
  });

  // ISO 8549-3: orthoses are named by the joints they encompass (title and principle read; terms from memory).
  it('names families by the joints encompassed, as ISO 8549-3 does', () => {
    const terms = {
      'foot-orthosis': 'foot orthosis',
      'solid-afo': 'ankle-foot orthosis',
      'articulated-afo': 'ankle-foot orthosis',
      'knee-orthosis': 'knee orthosis',
      kafo: 'knee-ankle-foot orthosis',
      hkafo: 'hip-knee-ankle-foot orthosis',
      'wrist-hand-orthosis': 'wrist-hand orthosis',
    };
    for (const [id, term] of Object.entries(terms))
      expect(rules.get(id)!.names.en.clinical.toLowerCase()).toContain(term);
  });

  // Krebs, ICIB vol 18 no 1 (read as an excerpt): tibia 16, foot 9 mm a year at 4-14 y; worked there to
  // toe room about 10.7 months, trim line about 19 months, knee axis (about 18 mm a year) about 7 months.
  it('has allowances that last as in the worked order of failure of Krebs', () => {
    const months = (family: string, measure: string, mmAYear: number) =>
      (12 * dimension(rules, family, measure).allowanceMm.value) / mmAYear;
    expect(months('solid-afo', 'foot_length', 9)).toBeCloseTo(10.7, 1);
    expect(months('solid-afo', 'knee_height', 16)).toBeCloseTo(19, 0);
    expect(months('kafo', 'knee_height', 18)).toBeCloseTo(7, 0);
  });

  it('covers every age with a review, shorter for skin that cannot warn, and a lifetime from birth to adults', () => {
    for (const rule of rules.values())
      for (const age of [0, 0.4, 1, 2, 4.9, 5, 11.9, 12, 17.9, 18, 40]) {
        expect(usualLifetimeMonths(rule, age), `${rule.id} at ${age}`).not.toBeNull();
        expect(reviewIntervalDays(rule, age, true)).toBeLessThanOrEqual(91);
        expect(reviewIntervalDays(rule, age, true)).toBeLessThanOrEqual(reviewIntervalDays(rule, age, false));
      }
  });

  it('lets a clinic change one figure or add a family as data, and asks for the source of a changed figure', () => {
    const own = loadRules([
      {
        id: 'solid-afo',
        dimensions: [{ measure: 'foot_length', allowanceMm: { value: 6, source: 'our audit' } }],
      },
      {
        id: 'night-afo',
        basedOn: 'solid-afo',
        names: { en: { clinical: 'Night AFO', plain: 'night brace' } },
      },
    ]);
    expect(dimension(own, 'solid-afo', 'foot_length').allowanceMm).toEqual({ value: 6, source: 'our audit' });
    expect(dimension(own, 'solid-afo', 'knee_height')).toEqual(dimension(rules, 'solid-afo', 'knee_height'));
    // What a family based on another does not name, it has from it: region, parts, turnaround, days, limits.
    const { id: _, names, ...inherited } = own.get('night-afo')!;
    const { id: __, names: baseNames, ...base } = own.get('solid-afo')!;
    expect(inherited).toEqual(base);
    expect(names.en.plain).toBe('night brace');
    expect(names.es).toEqual(baseNames.es);
    const noSource = [
      { id: 'solid-afo', dimensions: [{ measure: 'foot_length', allowanceMm: { value: 6 } }] },
    ];
    expect(() => loadRules(noSource)).toThrow(/solid-afo.*dimensions\.0\.allowanceMm\.source/);
    expect(() => loadRules([{ id: 'x', basedOn: 'nothing' }])).toThrow(/does not exist/);
    expect(() => loadRules({ id: 'solid-afo' })).toThrow(/list of objects/);
    expect(() => loadRules([{ id: 'new-one', name: 'incomplete' }])).toThrow(/new-one/);
  });
});

it('a clinic’s own rule may have a dimension more than the one it is based on, which keeps its own', () => {
  const rules = loadRules();
  const [knee] = rules.get('kafo')!.dimensions.filter((d) => d.measure === 'knee_height');
  const own = { id: 'own', basedOn: 'foot-orthosis', dimensions: [knee] };
  const measures = loadRules([own])
    .get('own')!
    .dimensions.map((d) => d.measure);
  expect(measures).toEqual([...rules.get('foot-orthosis')!.dimensions.map((d) => d.measure), 'knee_height']);
});
