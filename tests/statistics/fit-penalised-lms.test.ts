import { expect, test } from 'vitest';
import { bSplineBasis } from '../../src/statistics/b-spline-basis.js';
import { fitPenalisedLms } from '../../src/statistics/fit-penalised-lms.js';
import { lmsSizeAtZ, lmsZScore } from '../../src/statistics/lms.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';

/** A known skewed population on 0..10: each of `n` places holds one value, its probability a shuffled even step. */
function population(n: number, l: number) {
  const truth = (x: number) => ({ l, m: 100 + 8 * x + 10 * Math.sin(x / 2), s: 0.08 + 0.004 * x });
  const step = 0.6180339887498949; // golden ratio: even in every stretch of the axis
  return {
    truth,
    values: Array.from({ length: n }, (_, i) => {
      const x = (10 * (i + 0.5)) / n;
      return { x, y: lmsSizeAtZ(truth(x), normalQuantile((0.5 + i * step) % 1)) };
    }),
  };
}

/** Fitted once for all tests that ask for it. */
const manyFitted = new Map<number, ReturnType<typeof fitPenalisedLms>>();
function many(l: number) {
  const fit = manyFitted.get(l) ?? fitPenalisedLms(population(600, l).values, { from: 0, to: 10 });
  manyFitted.set(l, fit);
  return fit;
}

test.each([-1.5, 0, 1])('recovers the centiles a population was made from (L = %s)', (l) => {
  const { truth } = population(1, l);
  const fit = many(l);
  for (const x of [0.5, 2, 5, 8, 9.5])
    for (const z of [-1.88, 0, 1.88]) {
      const size = lmsSizeAtZ(truth(x), z);
      expect(Math.abs(lmsZScore(fit.at(x), size) - z), `x ${x} z ${z}`).toBeLessThan(0.2);
    }
  expect(fit.effectiveDegrees.m).toBeGreaterThan(4);
});

test('few records give stiff curves by themselves', () => {
  const { values } = population(60, 1);
  const few = fitPenalisedLms(values, { from: 0, to: 10 });
  expect(few.effectiveDegrees.m).toBeLessThan(many(1).effectiveDegrees.m);
  expect(few.effectiveDegrees.s).toBeLessThan(4);
});

test('asked to rise, the median falls by less than 0.05 %, though the records fall by far more', () => {
  const values = Array.from({ length: 120 }, (_, i) => {
    const x = (10 * (i + 0.5)) / 120;
    const z = normalQuantile((0.5 + i * 0.6180339887498949) % 1);
    return { x, y: (150 + 30 * x - 2.2 * x * x) * (1 + 0.03 * z) };
  });
  const free = fitPenalisedLms(values, { from: 0, to: 10 });
  const rising = fitPenalisedLms(values, { from: 0, to: 10, rising: true });
  expect(free.at(9.5).m).toBeLessThan(free.at(7).m - 3);
  for (let x = 0; x < 9.9; x += 0.1) expect(rising.at(x + 0.1).m - rising.at(x).m).toBeGreaterThan(-0.12);
});

test('an observation of weight two counts as two', () => {
  const { values } = population(200, 1);
  const twice = fitPenalisedLms([...values, ...values], { from: 0, to: 10 });
  const weighted = fitPenalisedLms(
    values.map((v) => ({ ...v, weight: 2 })),
    { from: 0, to: 10 },
  );
  for (const x of [1, 5, 9]) expect(weighted.at(x).m).toBeCloseTo(twice.at(x).m, 3);
});

test('the basis adds up to one', () => {
  const basis = bSplineBasis(0, 10, 8);
  for (const x of [0, 0.1, 3.3, 9.99, 10]) expect(basis(x).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
});
