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
  const left = new Float64Array(DEGREE + 1);
  const right = new Float64Array(DEGREE + 1);
  return {
    size,
    abscissae,
    basisValues(at, value, offset) {
      const x = Math.min(Math.max(at, first), last);
      let piece = 0;
      while (piece < pieces - 1 && x >= knots[piece + 1]) piece++;
      const i = piece + DEGREE;
      value[offset] = 1;
      for (let j = 1; j <= DEGREE; j++) {
        left[j] = x - t[i + 1 - j];
        right[j] = t[i + j] - x;
        let saved = 0;
        for (let r = 0; r < j; r++) {
          const part = value[offset + r] / (right[r + 1] + left[j - r]);
          value[offset + r] = saved + right[r + 1] * part;
          saved = left[j - r] * part;
        }
        value[offset + j] = saved;
      }
      return piece;
    },
  };
}
