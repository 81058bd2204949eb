/*
 * For the many small matrices of a quadrature grid, held row-major in one array, where allocating rows would cost
 * more than the arithmetic. Inner products run over two rows at a time, so that a processor has two sums to work on.
 */

/**
 * Cholesky factor in place of a symmetric positive definite n x n matrix. On return the lower triangle (diagonal
 * included) is R with A = R R'; the upper triangle is left as it was. False when A is not positive definite.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: two rows and two columns at a time, written out for speed
export function denseCholesky(a: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i += 2) {
    const row = i * n;
    const next = row + n;
    const two = i + 1 < n;
    let j = 0;
    for (; j + 1 < i; j += 2) {
      const other = j * n;
      const after = other + n;
      let s00 = a[row + j];
      let s01 = a[row + j + 1];
      let s10 = two ? a[next + j] : 0;
      let s11 = two ? a[next + j + 1] : 0;
      if (two)
        for (let k = 0; k < j; k++) {
          const x = a[row + k];
          const y = a[next + k];
          const u = a[other + k];
          const v = a[after + k];
          s00 -= x * u;
          s01 -= x * v;
          s10 -= y * u;
          s11 -= y * v;
        }
      else
        for (let k = 0; k < j; k++) {
          const x = a[row + k];
          s00 -= x * a[other + k];
          s01 -= x * a[after + k];
        }
      const first = a[other + j];
      const link = a[after + j];
      const second = a[after + j + 1];
      s00 /= first;
      a[row + j] = s00;
      a[row + j + 1] = (s01 - s00 * link) / second;
      if (!two) continue;
      s10 /= first;
      a[next + j] = s10;
      a[next + j + 1] = (s11 - s10 * link) / second;
    }
    // The 2 x 2 block on the diagonal; i is even, so j has met it.
    let d00 = a[row + i];
    for (let k = 0; k < i; k++) d00 -= a[row + k] * a[row + k];
    if (!(d00 > 0)) return false;
    d00 = Math.sqrt(d00);
    a[row + i] = d00;
    if (!two) continue;
    let d10 = a[next + i];
    let d11 = a[next + i + 1];
    for (let k = 0; k < i; k++) {
      d10 -= a[row + k] * a[next + k];
      d11 -= a[next + k] * a[next + k];
    }
    d10 /= d00;
    d11 -= d10 * d10;
    a[next + i] = d10;
    if (!(d11 > 0)) return false;
    a[next + i + 1] = Math.sqrt(d11);
  }
  return true;
}

/** Solves R y = b in place for `columns` right-hand sides; b is n x columns, row-major. */
export function denseForward(r: Float64Array, n: number, b: Float64Array, columns = 1): void {
  for (let i = 0; i < n; i++) {
    const to = i * columns;
    const row = i * n;
    let k = 0;
    for (; k + 3 < i; k += 4) {
      const f0 = r[row + k];
      const f1 = r[row + k + 1];
      const f2 = r[row + k + 2];
      const f3 = r[row + k + 3];
      const from = k * columns;
      const from1 = from + columns;
      const from2 = from1 + columns;
      const from3 = from2 + columns;
      for (let c = 0; c < columns; c++)
        b[to + c] -= f0 * b[from + c] + f1 * b[from1 + c] + f2 * b[from2 + c] + f3 * b[from3 + c];
    }
    for (; k < i; k++) {
      const f = r[row + k];
      const from = k * columns;
      for (let c = 0; c < columns; c++) b[to + c] -= f * b[from + c];
    }
    const inv = 1 / r[row + i];
    for (let c = 0; c < columns; c++) b[to + c] *= inv;
  }
}

/** Solves R' x = y in place for one right-hand side. */
export function denseBackward(r: Float64Array, n: number, y: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    const v = y[i] / r[i * n + i];
    y[i] = v;
    const row = i * n;
    for (let k = 0; k < i; k++) y[k] -= r[row + k] * v;
  }
}

/** ln det A given its factor. */
export function denseLogDeterminant(r: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.log(r[i * n + i]);
  return 2 * sum;
}

/**
 * The factor of A + d e e' from that of A, in place, for the i-th unit vector e and d >= 0: a variance made wider
 * without factoring anew. Gill, Golub, Murray and Saunders (1974), Methods for modifying matrix factorizations.
 */
export function denseWiden(r: Float64Array, n: number, i: number, d: number): void {
  const x = new Float64Array(n);
  x[i] = Math.sqrt(d);
  for (let k = i; k < n; k++) {
    const old = r[k * n + k];
    const now = Math.hypot(old, x[k]);
    const c = now / old;
    const s = x[k] / old;
    r[k * n + k] = now;
    for (let j = k + 1; j < n; j++) {
      const at = j * n + k;
      r[at] = (r[at] + s * x[j]) / c;
      x[j] = c * x[j] - s * r[at];
    }
  }
}

const column = { of: new Float64Array(256) };
/** Entry (i, i) of the inverse of A given its factor; of one larger than `enough` so much as shows that it is. */
export function denseInverseEntry(
  r: Float64Array,
  n: number,
  i: number,
  enough = Number.POSITIVE_INFINITY,
): number {
  if (column.of.length < n) column.of = new Float64Array(2 * n);
  const y = column.of;
  y[i] = 1 / r[i * n + i];
  let sum = y[i] * y[i];
  for (let j = i + 1; j < n && sum <= enough; j++) {
    let v = 0;
    for (let k = i; k < j; k++) v -= r[j * n + k] * y[k];
    v /= r[j * n + j];
    y[j] = v;
    sum += v * v;
  }
  return sum;
}
