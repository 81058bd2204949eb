/**
 * The three numbers that describe a skewed distribution of a positive size: the power `l` that makes it
 * normal, the median `m` in the size's unit, and the coefficient of variation `s`.
 * Cole TJ (1990), Eur J Clin Nutr 44:45; Cole & Green (1992), Stat Med 11:1305.
 */
export interface Lms {
  readonly l: number;
  readonly m: number;
  readonly s: number;
}

/** Below this |L| the power is taken as its limit, the logarithm; the two agree there to about 1e-9. */
const L_IS_ZERO = 1e-8;
/** Farthest z at which a size is given: beyond, `1 + L S z` may turn negative and no size has that z. */
const SMALLEST_BASE = 1e-6;

/** ((y/M)^L - 1) / (L S), or ln(y/M)/S at L = 0. lmsZScore({ l: 1, m: 100, s: 0.1 }, 110) = 1. */
export function lmsZScore({ l, m, s }: Lms, value: number): number {
  const log = Math.log(value / m);
  // expm1 keeps the digits that (y/M)^L - 1 loses when L is near zero.
  return Math.abs(l) < L_IS_ZERO ? log / s : Math.expm1(l * log) / (l * s);
}

/**
 * The size at a z-score: M (1 + L S z)^(1/L), or M exp(S z) at L = 0.
 * Always finite, positive and non-decreasing in z: where the power has no size that far out, the base
 * 1 + L S z is held at a small positive number for L < 0 up and L > 0 down.
 * lmsSizeAtZ({ l: 1, m: 100, s: 0.1 }, 1) = 110.
 */
export function lmsSizeAtZ({ l, m, s }: Lms, z: number): number {
  if (Math.abs(l) < L_IS_ZERO) return m * Math.exp(s * z);
  return m * Math.exp(Math.log1p(Math.max(l * s * z, SMALLEST_BASE - 1)) / l);
}
