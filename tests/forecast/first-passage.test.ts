import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dayOfChance,
  firstPassage,
  type PassageLimit,
  passageChance,
} from '../../src/forecast/device/first-passage.js';
import { randomStream } from '../../src/statistics/random-stream.js';

const DRAWS = 60;
const days = [0, 28, 56, 84, 140, 196];
const search = Array.from({ length: 29 }, (_, i) => i * 7);

/** Rising paths that differ by draw; the seed is the property's. */
function paths(seed: number): Float64Array {
  const chance = randomStream(seed);
  const path = new Float64Array(DRAWS * days.length);
  for (let i = 0; i < DRAWS; i++) {
    let size = 150 + 5 * chance.normal();
    for (let j = 0; j < days.length; j++) path[i * days.length + j] = size += 4 * chance.uniform();
  }
  return path;
}

const limit = (path: Float64Array, line: (day: number) => number): PassageLimit => ({
  path,
  castIndex: 0,
  limitMm: Float64Array.from(search, line),
  deviationMm: new Float64Array(DRAWS),
});
const at = (limits: PassageLimit[]) => firstPassage(days, search, limits, DRAWS).at;
const neverEarlier = (later: Int32Array, earlier: Int32Array) =>
  expect(later.every((d, i) => d >= earlier[i])).toBe(true);

describe('first passage', () => {
  it('a larger allowance never shortens life, in any future', () => {
    fc.assert(
      fc.property(
        fc.integer(),
        fc.float({ min: 0, max: 25, noNaN: true }),
        fc.float({ min: 0, max: 10, noNaN: true }),
        (seed, a, more) => {
          const p = paths(seed);
          neverEarlier(at([limit(p, () => a + more)]), at([limit(p, () => a)]));
        },
      ),
    );
  });

  it('one more adjustment, whenever made, never brings the date forward', () => {
    fc.assert(
      fc.property(fc.integer(), fc.nat(20), fc.nat(196), fc.nat(15), (seed, a, when, gain) => {
        const p = paths(seed);
        neverEarlier(at([limit(p, (d) => (d >= when ? a + gain : a))]), at([limit(p, () => a)]));
      }),
    );
  });

  it('the first passage of several limits is the earliest of each alone, and a limit more never puts it off', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer(), fc.nat(20), fc.nat(20), (seed, other, a, b) => {
        const one = limit(paths(seed), () => a);
        const two = limit(paths(other), () => b);
        const [both, alone, second] = [at([one, two]), at([one]), at([two])];
        expect([...both]).toEqual([...alone].map((d, i) => Math.min(d, second[i])));
      }),
    );
  });

  it('the chance over dates never falls', () => {
    fc.assert(
      fc.property(fc.integer(), fc.nat(20), (seed, a) => {
        const passage = firstPassage(days, search, [limit(paths(seed), () => a)], DRAWS);
        const chance = passageChance(passage, new Float64Array(DRAWS).fill(1 / DRAWS), search.length);
        for (let j = 1; j < chance.length; j++) expect(chance[j]).toBeGreaterThanOrEqual(chance[j - 1]);
        expect(chance[chance.length - 1]).toBeLessThanOrEqual(1);
      }),
    );
  });

  // Growth at a constant pace v mm/day, v normal: the day an allowance A is passed has quantile A / v(1 - p) exactly.
  it('gives the exact quantiles of passage at a constant random pace, against the closed form', () => {
    const draws = 20_000;
    const chance = randomStream(11);
    const path = new Float64Array(draws * 2);
    for (let i = 0; i < draws; i++) path[2 * i + 1] = 1000 * (0.03 + 0.004 * chance.normal());
    const weeks = Array.from({ length: 143 }, (_, i) => 7 * i);
    const line = {
      path,
      castIndex: 0,
      limitMm: new Float64Array(weeks.length).fill(8),
      deviationMm: new Float64Array(draws),
    };
    const passage = firstPassage([0, 1000], weeks, [line], draws);
    const curve = passageChance(passage, new Float64Array(draws).fill(1 / draws), weeks.length);
    // z(.9) = 1.2816
    expect(dayOfChance(weeks, curve, 0.1)).toBeCloseTo(8 / (0.03 + 1.2816 * 0.004), -0.7);
    expect(dayOfChance(weeks, curve, 0.5)).toBeCloseTo(8 / 0.03, -0.7);
    expect(dayOfChance(weeks, curve, 0.9)).toBeCloseTo(8 / (0.03 - 1.2816 * 0.004), -0.7);
  });
});
