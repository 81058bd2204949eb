/**
 * Cholesky factor in place of a symmetric positive definite n x n matrix held row-major in one array.
 * On return the lower triangle (diagonal included) is R with A = R R'; the upper triangle is left as it was.
 * False when A is not positive definite. For the many small matrices of a quadrature grid, where allocating
 * rows would cost more than the arithmetic.
 */
export function denseCholesky(a: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let j = 0; j <= i; j++) {
      const other = j * n;
      let sum = a[row + j];
      for (let k = 0; k < j; k++) sum -= a[row + k] * a[other + k];
      if (i !== j) a[row + j] = sum / a[other + j];
      else if (sum > 0) a[row + i] = Math.sqrt(sum);
      else return false;
    }
  }
  return true;
}

/** Solves R y = b in place for `columns` right-hand sides; b is n x columns, row-major. */
export function denseForward(r: Float64Array, n: number, b: Float64Array, columns = 1): void {
  for (let i = 0; i < n; i++) {
    const to = i * columns;
    for (let k = 0; k < i; k++) {
      const f = r[i * n + k];
      if (f === 0) continue;
      const from = k * columns;
      for (let c = 0; c < columns; c++) b[to + c] -= f * b[from + c];
    }
    const inv = 1 / r[i * n + i];
    for (let c = 0; c < columns; c++) b[to + c] *= inv;
  }
}

/** Solves R' x = y in place for one right-hand side. */
export function denseBackward(r: Float64Array, n: number, y: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    let sum = y[i];
    for (let k = i + 1; k < n; k++) sum -= r[k * n + i] * y[k];
    y[i] = sum / r[i * n + i];
  }
}

/** ln det A given its factor. */
export function denseLogDeterminant(r: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.log(r[i * n + i]);
  return 2 * sum;
}
