const DEGREE = 3;

/**
 * Cubic B-splines on equally spaced knots over [from, to], `segments` pieces wide: segments + 3 functions.
 * Gives the values of all of them at x, of which four are not zero and which add up to one.
 * de Boor (1978), A Practical Guide to Splines, ch. X.
 */
export function bSplineBasis(from: number, to: number, segments: number): (x: number) => Float64Array {
  const h = (to - from) / segments;
  return (x) => {
    const out = new Float64Array(segments + DEGREE);
    const piece = Math.min(segments - 1, Math.max(0, Math.floor((x - from) / h)));
    const t = (x - from) / h - piece;
    const u = 1 - t;
    out[piece] = (u * u * u) / 6;
    out[piece + 1] = (3 * t * t * t - 6 * t * t + 4) / 6;
    out[piece + 2] = (3 * u * u * u - 6 * u * u + 4) / 6;
    out[piece + 3] = (t * t * t) / 6;
    return out;
  };
}
