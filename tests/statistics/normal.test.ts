import fc from 'fast-check';
import { expect, test } from 'vitest';
import { normalCdf } from '../../src/statistics/normal-cdf.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';

// Source: R 4.2.2, pnorm(z) and qnorm(p) printed to 17 digits.
const pnorm = [
  [-8, 6.220960574271785e-16],
  [-3, 1.3498980316300946e-3],
  [-1.96, 2.4997895148220428e-2],
  [-0.5, 0.30853753872598694],
  [0, 0.5],
  [1, 0.8413447460685429],
  [2.5, 0.9937903346742238],
  [6, 0.9999999990134123],
];
const qnorm = [
  [1e-12, -7.034483825301132],
  [1e-4, -3.71901648545568],
  [0.03, -1.880793608151251],
  [0.425, -0.18911842627279249],
  [0.5, 0],
  [0.9, 1.2815515655446008],
  [0.97, 1.880793608151251],
  [0.9999, 3.7190164854557084],
];

test.each(pnorm)('normalCdf(%s) as R has it', (z, p) => {
  expect(Math.abs(normalCdf(z) / p - 1)).toBeLessThan(1e-12);
});

test.each(qnorm)('normalQuantile(%s) as R has it', (p, z) => {
  expect(normalQuantile(p)).toBeCloseTo(z, 12);
});

test('outside the range of shares there is no quantile', () => {
  expect(normalQuantile(0)).toBe(-Infinity);
  expect(normalQuantile(1)).toBe(Infinity);
  expect(normalQuantile(1.01)).toBeNaN();
  expect(normalCdf(Number.NaN)).toBeNaN();
  expect(normalCdf(50)).toBe(1);
  expect(normalCdf(-50)).toBe(0);
});

test('quantile undoes distribution function', () => {
  fc.assert(
    fc.property(fc.double({ min: -6, max: 5, noNaN: true }), (z) => {
      expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 8);
    }),
  );
});
