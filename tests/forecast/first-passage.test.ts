import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOfChance } from '../../src/forecast/device/chance-by-day.js';
import { drawDeviation } from '../../src/forecast/device/deviation.js';
import { firstPassage, type PassageLimit, passageChance } from '../../src/forecast/device/first-passage.js';
import { ownDeviation } from '../../src/forecast/device/own-limit.js';
import { passageCurve } from '../../src/forecast/device/passage-curve.js';
import { normalCdf } from '../../src/statistics/normal-cdf.js';
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
        const chance = passageChance(passage, search.length);
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
    };
    const passage = firstPassage([0, 1000], weeks, [line], draws);
    const curve = passageChance(passage, weeks.length);
    // z(.9) = 1.2816
    expect(dayOfChance(weeks, curve, 0.1)).toBeCloseTo(8 / (0.03 + 1.2816 * 0.004), -0.7);
    expect(dayOfChance(weeks, curve, 0.5)).toBeCloseTo(8 / 0.03, -0.7);
    expect(dayOfChance(weeks, curve, 0.9)).toBeCloseTo(8 / (0.03 - 1.2816 * 0.004), -0.7);
  });
});

describe('passage over all that a device’s own limits may be', () => {
  const straight = Float64Array.of(0, 28, 56, 84, 140, 196).map((d) => 0.03 * d);
  const own = (low: number, high: number, sdMm = 2) =>
    ownDeviation(sdMm, Float64Array.of(low), Float64Array.of(high));
  const line = (mm: number, low = -Infinity, high = Infinity) => ({
    path: straight,
    castIndex: 0,
    limitMm: new Float64Array(search.length).fill(mm),
    own: own(low, high),
  });
  const curve = (...limits: ReturnType<typeof line>[]) => passageCurve(days, search, limits, 1);
  /** Share of devices whose limit a growth of so many mm beyond the stated one has passed, from the definition. */
  const share = (mm: number) => 0.95 * normalCdf(mm / 2) + 0.05 * normalCdf(mm / 6);

  it('is the deviation’s own distribution where growth is known', () => {
    const { chance } = curve(line(3));
    for (const [j, day] of search.entries()) expect(chance[j]).toBeCloseTo(share(0.03 * day - 3), 2);
  });
  it('a limit that must hold so much is not passed before, and one that must not is passed by then', () => {
    const { chance } = curve(line(3, 0, 2));
    for (const [j, day] of search.entries()) {
      if (day % 28 > 0) continue;
      if (0.03 * day < 3) expect(chance[j]).toBe(0);
      if (0.03 * day >= 5.8) expect(chance[j]).toBe(1);
    }
  });
  it('two limits last if both do, and each has its part of the falls', () => {
    const both = curve(line(3), line(4));
    const [a, b] = [curve(line(3)).chance, curve(line(4)).chance];
    for (const j of search.keys()) expect(both.chance[j]).toBeCloseTo(1 - (1 - a[j]) * (1 - b[j]), 2);
    expect(both.share[0]).toBeGreaterThan(both.share[1]);
    expect(both.share[0] + both.share[1]).toBeCloseTo(both.chance[search.length - 1], 6);
  });
  it('a limit more never puts it off, to the last bit, on the days that are tried', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer(), fc.nat(20), fc.nat(20), (seed, other, a, b) => {
        const of = (p: Float64Array, mm: number) => ({
          ...limit(p, () => mm),
          own: ownDeviation(
            2,
            new Float64Array(DRAWS).fill(-Infinity),
            new Float64Array(DRAWS).fill(Infinity),
          ),
        });
        const [one, two] = [of(paths(seed), a), of(paths(other), b)];
        // Each knot is a search day here, so that every one is tried and none is read off the cubic between.
        const by = (...limits: (typeof one)[]) => passageCurve(days, days, limits, DRAWS).chance;
        const both = by(one, two);
        for (const alone of [by(one), by(two)])
          for (const [j, chance] of alone.entries()) expect(both[j]).toBeGreaterThanOrEqual(chance);
      }),
    );
  });
  it('agrees with deviations drawn one by one', () => {
    const draws = 20_000;
    const chance = randomStream(5);
    const [low, high] = [-1, 6];
    const drawn = Float64Array.from({ length: draws }, () =>
      drawDeviation(2, low, high, chance.uniform(), chance.uniform()),
    );
    const { chance: all } = curve(line(2.5, low, high));
    for (const [j, day] of search.entries())
      if (day % 28 === 0)
        expect(all[j]).toBeCloseTo(drawn.filter((d) => 0.03 * day - 2.5 > d).length / draws, 1.7);
  });
});
