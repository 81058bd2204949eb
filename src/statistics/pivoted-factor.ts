import { floatsOf } from './floats-of.js';

export interface PivotedFactor {
  readonly rank: number;
  /** rank x n, row-major: every point as a combination of so many independent standard normals. */
  readonly factor: Float32Array;
}

/**
 * Pivoted Cholesky factor of a symmetric positive semidefinite n x n matrix (row-major, lower triangle), ended once
 * no point has more than `share` of its variance left, or at so many directions. Harbrecht, Peters & Schneider (2012), On the low-rank
 * approximation by the pivoted Cholesky decomposition, Applied Numerical Mathematics 62.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: four earlier rows at a time, written out for speed
export function pivotedFactor(a: Float64Array, n: number, share: number, most = n): PivotedFactor {
  const whole = floatsOf({ length: n }, (_, i) => a[i * n + i]);
  const left = Float64Array.from(whole);
  const factor = new Float64Array(n * n);
  let rank = 0;
  for (; rank < Math.min(n, most); rank++) {
    let pivot = -1;
    let most = share;
    for (let i = 0; i < n; i++)
      if (left[i] > most * whole[i]) {
        pivot = i;
        most = left[i] / whole[i];
      }
    if (pivot < 0) break;
    const row = rank * n;
    for (let i = 0; i < n; i++) factor[row + i] = i >= pivot ? a[i * n + pivot] : a[pivot * n + i];
    let k = 0;
    for (; k + 3 < rank; k += 4) {
      const [r0, r1, r2, r3] = [k * n, (k + 1) * n, (k + 2) * n, (k + 3) * n];
      const f0 = factor[r0 + pivot];
      const f1 = factor[r1 + pivot];
      const f2 = factor[r2 + pivot];
      const f3 = factor[r3 + pivot];
      for (let i = 0; i < n; i++)
        factor[row + i] -=
          f0 * factor[r0 + i] + f1 * factor[r1 + i] + f2 * factor[r2 + i] + f3 * factor[r3 + i];
    }
    for (; k < rank; k++) {
      const f = factor[k * n + pivot];
      for (let i = 0; i < n; i++) factor[row + i] -= f * factor[k * n + i];
    }
    const root = Math.sqrt(left[pivot]);
    for (let i = 0; i < n; i++) {
      const v = factor[row + i] / root;
      factor[row + i] = v;
      left[i] = Math.max(0, left[i] - v * v);
    }
    left[pivot] = 0;
  }
  // What is left out is made good in every point's own variance.
  const rounded = new Float32Array(rank * n);
  for (let i = 0; i < n; i++) {
    const f = Math.sqrt(whole[i] / (whole[i] - left[i]));
    for (let k = 0; k < rank; k++) rounded[k * n + i] = factor[k * n + i] * f;
  }
  return { rank, factor: rounded };
}
