/** Rows of a square or rectangular matrix. */
export type Matrix = ArrayLike<number>[];

/**
 * Lower triangular factor R of a symmetric positive definite n x n matrix A = R R'.
 * Null when A is not positive definite, so that the caller can say what that means there.
 * cholesky([[4, 2], [2, 5]]) = [[2, 0], [1, 2]].
 */
export function cholesky(a: Matrix): Float64Array[] | null {
  const n = a.length;
  const r = Array.from({ length: n }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i][j];
      for (let k = 0; k < j; k++) sum -= r[i][k] * r[j][k];
      if (i !== j) r[i][j] = sum / r[j][j];
      else if (sum > 0) r[i][i] = Math.sqrt(sum);
      else return null;
    }
  }
  return r;
}

/** Solves R y = b, R lower triangular. */
export function solveLower(r: Matrix, b: ArrayLike<number>): Float64Array {
  const y = Float64Array.from(b);
  for (let i = 0; i < y.length; i++) {
    for (let k = 0; k < i; k++) y[i] -= r[i][k] * y[k];
    y[i] /= r[i][i];
  }
  return y;
}

/** Solves R' x = y, R lower triangular. */
export function solveLowerTransposed(r: Matrix, y: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(y);
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i] -= r[k][i] * x[k];
    x[i] /= r[i][i];
  }
  return x;
}

/** Solves A x = b given the factor of A. */
export function choleskySolve(r: Matrix, b: ArrayLike<number>): Float64Array {
  return solveLowerTransposed(r, solveLower(r, b));
}

/** ln det A given the factor of A. */
export function choleskyLogDeterminant(r: Matrix): number {
  let sum = 0;
  for (let i = 0; i < r.length; i++) sum += Math.log(r[i][i]);
  return 2 * sum;
}
