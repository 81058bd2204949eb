import { describe, expect, it } from 'vitest';
import { candidatesOf } from '../../src/growth/child/candidates-of.js';
import { childPrior } from '../../src/growth/child/child-prior.js';
import { conditionEffects } from '../../src/growth/population/condition-effects.js';
import { sdToScale } from '../../src/growth/population/growth-scale.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import type { MeasureId } from '../../src/records/measure.js';
import { type ConditionId, conditionIds } from '../../src/records/records.js';
import { child } from './support.js';

const ids = [
  'stature',
  'sitting_height',
  'leg_length',
  'ankle_height',
  'foot_length',
  'foot_breadth',
  'calf_girth',
  'thigh_girth',
] as const;
const of = (measure: MeasureId) => ids.indexOf(measure as (typeof ids)[number]);
const prior = (conditions: ConditionId[], affectedSide: 'none' | 'left' | 'right' | 'both' = 'none') =>
  childPrior(child([], { conditions, affectedSide }), ids);

/** What each condition does. Directions: common practice, no source; figures where one is named in the test below. */
const expected: Record<
  ConditionId,
  { smaller?: boolean; side?: MeasureId[]; apart?: boolean; wider?: boolean; early?: boolean }
> = {
  none: {},
  'cerebral-palsy': { smaller: true, apart: true, wider: true },
  hemiplegia: {
    side: ['leg_length', 'foot_length', 'foot_breadth', 'calf_girth', 'thigh_girth', 'ankle_height'],
    apart: true,
    wider: true,
  },
  'myelomeningocele-high': { smaller: true, apart: true, wider: true, early: true },
  'myelomeningocele-low': { smaller: true, apart: true, wider: true, early: true },
  'muscular-dystrophy': { smaller: true, wider: true },
  'spinal-muscular-atrophy': { smaller: true, wider: true },
  arthrogryposis: { smaller: true, apart: true, wider: true },
  clubfoot: { side: ['foot_length', 'foot_breadth', 'calf_girth'], apart: true, wider: true },
  'down-syndrome': { smaller: true, wider: true },
  'idiopathic-scoliosis': { wider: true },
  'neuromuscular-scoliosis': { smaller: true, wider: true },
  'positional-head-asymmetry': { apart: true },
  'craniosynostosis-operated': { apart: true, wider: true },
  hypotonia: { wider: true },
  'flexible-flat-foot': {},
  'hip-dysplasia': { apart: true, wider: true },
  'leg-length-difference': { apart: true, wider: true },
  other: { apart: true, wider: true },
};

describe.each(conditionIds)('%s', (id) => {
  const { smaller = false, side = [], apart = false, wider = false, early = false } = expected[id];
  const effect = conditionEffects[id];

  it('makes every bone smaller or none', () => {
    const { shift } = prior([id]);
    for (const m of [
      'stature',
      'sitting_height',
      'leg_length',
      'ankle_height',
      'foot_length',
      'foot_breadth',
    ] as const)
      if (smaller) expect(shift[of(m)], m).toBeLessThan(0);
      else expect(shift[of(m)], m).toBe(0);
    // An ankle's height goes with the foot.
    expect(shift[of('ankle_height')]).toBe(shift[of('foot_length')]);
  });

  it('makes the affected side smaller, and that side alone', () => {
    for (const m of ids) {
      const at = of(m);
      const [left, right, both] = (['left', 'right', 'both'] as const).map((s) => prior([id], s));
      expect([left.right[at], right.left[at], both.left[at], both.right[at]], m).toEqual([0, 0, 0, 0]);
      expect(left.left[at], m).toBe(right.right[at]);
      expect(both.shift[at] - left.shift[at], m).toBeCloseTo(left.left[at], 12);
      if (side.includes(m)) expect(left.left[at], m).toBeLessThan(0);
      else expect(left.left[at], m).toBe(0);
    }
  });

  it('leaves the sides apart, the size less sure and puberty early where it does', () => {
    const { sideSd, spread, residual } = prior([id]);
    const healthy = prior(['none']);
    expect(sideSd[of('foot_length')] > healthy.sideSd[of('foot_length')]).toBe(apart);
    expect(spread[0] > 1).toBe(wider);
    expect(residual > 1).toBe(wider);
    expect(Math.min(effect.spread, effect.residualVariance)).toBeGreaterThanOrEqual(1);
    expect(Math.sign(effect.tempoShift)).toBe(early ? -1 : 0);
  });
});

it('sides grow apart a little in health and more where one is affected, by its condition or as recorded', () => {
  const pace = (...of: Parameters<typeof prior>) => prior(...of).sidePace[ids.indexOf('foot_length')];
  expect(pace(['none'])).toBeGreaterThan(0);
  expect(pace(['hemiplegia'])).toBeGreaterThan(2 * pace(['none']));
  expect(pace(['cerebral-palsy'], 'left')).toBe(pace(['hemiplegia']));
  expect(pace(['cerebral-palsy'], 'both')).toBe(pace(['cerebral-palsy']));
  expect(prior(['hemiplegia'], 'left').sidePace[ids.indexOf('stature')]).toBe(0);
});

it('a high lesion is 3.13 SD small and a low one 0.46 (Trollmann et al. 1996, Acta Paediatr 85:76, abstract)', () => {
  expect(prior(['myelomeningocele-high']).shift[of('stature')]).toBe(-3.13);
  expect(prior(['myelomeningocele-high']).spread[of('stature')]).toBe(1.62);
  expect(prior(['myelomeningocele-low']).shift[of('stature')]).toBe(-0.46);
  expect(prior(['myelomeningocele-low']).spread[of('stature')]).toBe(1.27);
});

it('of several conditions the largest effect counts, whatever their order', () => {
  for (const both of [
    ['cerebral-palsy', 'down-syndrome'],
    ['down-syndrome', 'cerebral-palsy'],
  ] as const) {
    const { shift, residual, spread } = prior([...both]);
    expect(shift[of('stature')]).toBe(-2);
    expect([residual, spread[0]]).toEqual([1.5, 1.3]);
  }
});

it('puberty that comes early is believed before any reading, and a late one without a marker hardly', () => {
  const model = loadGrowthModel();
  const belief = (conditions: ConditionId[], tempo: number) => {
    const { list, evidence } = candidatesOf(child([], { conditions }), model, []);
    const { submodel } = list.find((c) => c.submodel.grid.length > 1)!;
    return evidence(submodel, { ...submodel.grid[0], tempo });
  };
  const { tempoShift } = conditionEffects['myelomeningocele-high'];
  const of = (tempo: number) => belief(['myelomeningocele-high'], tempo);
  // Of a normal belief moved by d, log density at -1 less that at 0 is -d, beyond what the grid itself carries.
  expect(of(-1) - of(0)).toBeCloseTo(-tempoShift, 9);
  expect(of(1) - of(0)).toBeLessThan(tempoShift - 1);
  expect(belief(['none'], -1)).toBe(belief(['none'], 1));
});

it('an error of a girth is a share of it inside the model, that of a bone stays mm', () => {
  expect(sdToScale('calf_girth', 3, 200)).toBe(0.015);
  expect(sdToScale('foot_length', 3, 200)).toBe(3);
});
