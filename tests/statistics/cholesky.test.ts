import { expect, test } from 'vitest';
import { cholesky, choleskyLogDeterminant, choleskySolve } from '../../src/statistics/cholesky.js';

// Source: R 4.2.2, t(chol(A)), solve(A, c(1, 2, 3)), log(det(A)).
const a = [
  [21, 5, 19],
  [5, 10, 8],
  [19, 8, 30],
];

test('factor, solution and determinant as R has them', () => {
  const r = cholesky(a)!;
  const factor = [
    [4.58257569495584, 0, 0],
    [1.091089451179962, 2.9680841985233184, 0],
    [4.1461399144838555, 1.1711899810389308, 3.3819872616315156],
  ];
  factor.forEach((row, i) => {
    row.forEach((v, j) => {
      expect(r[i][j]).toBeCloseTo(v, 12);
    });
  });
  const x = choleskySolve(r, [1, 2, 3]);
  [-0.09924385633270319, 0.15170132325141775, 0.1224007561436673].forEach((v, i) => {
    expect(x[i]).toBeCloseTo(v, 13);
  });
  expect(choleskyLogDeterminant(r)).toBeCloseTo(7.65728279297819, 12);
});

test('a matrix that is not positive definite has no factor', () => {
  expect(
    cholesky([
      [1, 2],
      [2, 1],
    ]),
  ).toBeNull();
});
