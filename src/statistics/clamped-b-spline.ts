const DEGREE = 3;

export interface ClampedBSpline {
  /** Number of functions: knots + 2. */
  readonly size: number;
  /** Mean of each function's inner knots: where its coefficient has most say. Greville (1964). */
  readonly abscissae: Float64Array;
  /** Values at x, which is held within the first and last knot; writes into `value` at an offset. */
  basisValues(x: number, value: Float64Array, offset: number): number;
}

/**
 * Cubic B-splines on strictly increasing knots of any spacing, clamped at both ends.
 * de Boor (1978), A Practical Guide to Splines, ch. X, algorithm BSPLVB.
 */
export function clampedBSpline(knots: readonly number[]): ClampedBSpline {
  const first = knots[0];
  const last = knots[knots.length - 1];
  const t = Float64Array.from([...Array(DEGREE).fill(first), ...knots, ...Array(DEGREE).fill(last)]);
  const size = knots.length + DEGREE - 1;
  const pieces = knots.length - 1;
  const abscissae = Float64Array.from({ length: size }, (_, i) => (t[i + 1] + t[i + 2] + t[i + 3]) / 3);
  const polynomials = piecePolynomials(t, pieces);
  // Finer than the closest knots, so that at most one lies in each cell.
  const cells = Math.ceil((2 * (last - first)) / Math.min(...knots.slice(1).map((k, i) => k - knots[i])));
  const cellWidth = (last - first) / cells;
  const pieceOf = Int32Array.from({ length: cells + 1 }, (_, c) => pieceAt(knots, first + c * cellWidth));
  return {
    size,
    abscissae,
    basisValues(at, value, offset) {
      const x = Math.min(Math.max(at, first), last);
      let piece = pieceOf[Math.floor((x - first) / cellWidth)];
      if (piece < pieces - 1 && x >= knots[piece + 1]) piece++;
      const u = x - knots[piece];
      for (let r = 0, p = 16 * piece; r < 4; r++, p += 4)
        value[offset + r] =
          polynomials[p] + u * (polynomials[p + 1] + u * (polynomials[p + 2] + u * polynomials[p + 3]));
      return piece;
    },
  };
}

function pieceAt(knots: readonly number[], x: number): number {
  let piece = 0;
  while (piece < knots.length - 2 && x >= knots[piece + 1]) piece++;
  return piece;
}

/** Per piece the four functions that are not zero on it, each as a cubic in the distance from its first knot. */
function piecePolynomials(t: Float64Array, pieces: number): Float64Array {
  const out = new Float64Array(16 * pieces);
  for (let piece = 0; piece < pieces; piece++) {
    const i = piece + DEGREE;
    let value = [[1]];
    for (let j = 1; j <= DEGREE; j++) {
      const next: number[][] = [];
      let saved: number[] = [];
      for (let r = 0; r < j; r++) {
        const part = value[r].map((c) => c / (t[i + 1 + r] - t[i + 1 + r - j]));
        // Right of x: t - x; left of it: x - t, both in the distance u from t[i].
        next.push(sum(saved, times(part, t[i + 1 + r] - t[i], -1)));
        saved = times(part, t[i] - t[i + 1 + r - j], 1);
      }
      next.push(saved);
      value = next;
    }
    value.forEach((c, r) => {
      out.set(c, 16 * piece + 4 * r);
    });
  }
  return out;
}

const sum = (a: number[], b: number[]): number[] => b.map((v, k) => v + (a[k] ?? 0));
/** A polynomial times (constant + slope u). */
const times = (p: number[], constant: number, slope: number): number[] =>
  [...p, 0].map((v, k) => constant * v + slope * (p[k - 1] ?? 0));
