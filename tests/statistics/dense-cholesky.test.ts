import { describe, expect, test } from 'vitest';
import {
  denseBackward,
  denseCholesky,
  denseForward,
  denseInverseEntry,
  denseLogDeterminant,
  denseWiden,
} from '../../src/statistics/dense-cholesky.js';
import { evenNormals, WIDTH } from '../../src/statistics/even-normals.js';
import { normalQuantile } from '../../src/statistics/normal-quantile.js';
import { pivotedFactor } from '../../src/statistics/pivoted-factor.js';
import { SOBOL_DIMENSIONS, sobol } from '../../src/statistics/sobol.js';

/** Exponential correlation with something on the diagonal: n x n, row-major. */
const matrix = (n: number) =>
  Float64Array.from({ length: n * n }, (_, i) => {
    const [r, c] = [Math.floor(i / n), i % n];
    return 5 * Math.exp(-Math.abs(r - c) / 4) + (r === c ? 0.5 + 0.1 * r : 0);
  });
const product = (r: Float64Array, n: number, i: number, j: number) => {
  let sum = 0;
  for (let k = 0; k <= Math.min(i, j); k++) sum += r[i * n + k] * r[j * n + k];
  return sum;
};

// Source: R 4.2.2, t(chol(A)), solve(A, c(1, 2, 3)), log(det(A)), the same as in cholesky.test.ts.
test('factor, solution and determinant as R has them', () => {
  const a = Float64Array.from([21, 5, 19, 5, 10, 8, 19, 8, 30]);
  expect(denseCholesky(a, 3)).toBe(true);
  [4.58257569495584, 1.091089451179962, 2.9680841985233184, 4.1461399144838555, 1.1711899810389308].forEach(
    (v, i) => {
      expect(a[[0, 3, 4, 6, 7][i]]).toBeCloseTo(v, 12);
    },
  );
  const x = Float64Array.from([1, 2, 3]);
  denseForward(a, 3, x);
  denseBackward(a, 3, x);
  [-0.09924385633270319, 0.15170132325141775, 0.1224007561436673].forEach((v, i) => {
    expect(x[i]).toBeCloseTo(v, 13);
  });
  expect(denseLogDeterminant(a, 3)).toBeCloseTo(7.65728279297819, 12);
});

describe.each([1, 2, 5, 8, 13])('a %i x %i matrix', (n) => {
  test('the factor times itself is the matrix', () => {
    const r = matrix(n);
    expect(denseCholesky(r, n)).toBe(true);
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) expect(product(r, n, i, j)).toBeCloseTo(matrix(n)[i * n + j], 11);
  });

  test('one variance made wider is what factoring anew gives', () => {
    const at = Math.floor(n / 2);
    const widened = matrix(n);
    widened[at * n + at] += 7;
    denseCholesky(widened, n);
    const r = matrix(n);
    denseCholesky(r, n);
    denseWiden(r, n, at, 7);
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) expect(r[i * n + j]).toBeCloseTo(widened[i * n + j], 11);
  });

  test("the inverse's diagonal is what solving for unit vectors gives", () => {
    const r = matrix(n);
    denseCholesky(r, n);
    for (let i = 0; i < n; i++) {
      const unit = new Float64Array(n);
      unit[i] = 1;
      denseForward(r, n, unit);
      denseBackward(r, n, unit);
      expect(denseInverseEntry(r, n, i)).toBeCloseTo(unit[i], 12);
      // Ended early it still says on which side of the bound it lies.
      for (const share of [0.3, 0.99, 1.01]) {
        const some = denseInverseEntry(r, n, i, share * unit[i]);
        expect(some > share * unit[i]).toBe(share < 1);
        expect(some).toBeLessThanOrEqual(denseInverseEntry(r, n, i));
      }
    }
  });
});

test('a matrix that is not positive definite has no factor', () => {
  expect(denseCholesky(Float64Array.from([1, 2, 2, 1]), 2)).toBe(false);
});

test('a pivoted factor ended early keeps every variance and nearly every covariance', () => {
  const n = 40;
  const a = Float64Array.from(
    { length: n * n },
    (_, i) => 9 * Math.exp(-(((Math.floor(i / n) - (i % n)) / 12) ** 2)),
  );
  const { rank, factor } = pivotedFactor(a, n, 0.01);
  expect(rank).toBeLessThan(12);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = 0; k < rank; k++) sum += factor[k * n + i] * factor[k * n + j];
      expect(Math.abs(sum - a[i * n + j])).toBeLessThan(i === j ? 1e-5 : 0.02 * 9);
    }
});

test('even normals: mean square 1, uncorrelated, and any run of rows more even than chance', () => {
  const [pairs, width] = [1000, 12];
  const { normals } = evenNormals(pairs, 5);
  const z = (i: number, j: number) => normals[i * WIDTH + j];
  for (let j = 0; j < width; j++)
    for (let k = 0; k <= j; k++) {
      let sum = 0;
      for (let i = 0; i < pairs; i++) sum += z(i, j) * z(i, k);
      expect(Math.abs(sum / pairs - (j === k ? 1 : 0))).toBeLessThan(1e-5);
    }
  // Of any run of 128 rows half lie below the median of an even direction, give or take ten; chance would stray by 17.
  for (let from = 0; from + 128 <= pairs; from += 128)
    for (let j = 0; j < 7; j++) {
      const below = Array.from({ length: 128 }, (_, i) => z(from + i, j)).filter((v) => v < 0).length;
      expect(Math.abs(below - 64)).toBeLessThan(11);
    }
});

test('uniforms and their mirror image fill every hundredth of (0, 1) once', () => {
  const even = evenNormals(50, 3);
  for (const at of [0, 5, 20]) {
    const { uniforms, normals } = even.line(at);
    expect(new Set(Array.from(uniforms, (u) => Math.floor(u * 100))).size).toBe(100);
    for (let i = 0; i < 100; i++) expect(normals[i]).toBeCloseTo(normalQuantile(uniforms[i]), 12);
  }
});

test('Sobol points: the second direction begins 0, 1/2, 3/4, 1/4 (any account of the sequence), and all are nets', () => {
  expect(Array.from(sobol(4, 1), (x) => x / 2 ** 32)).toEqual([0, 0.5, 0.75, 0.25]);
  // Property A of the construction: of 2^k points each of 2^k equal intervals of every dimension holds one.
  for (let d = 0; d < SOBOL_DIMENSIONS; d++)
    expect(new Set(Array.from(sobol(64, d), (x) => x >>> 26)).size).toBe(64);
});
