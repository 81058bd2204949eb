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
/** Farthest z the power alone is trusted to (no table is printed farther), and the least base it may leave. */
const LAST_Z = 3;
const LEAST_BASE = 0.1;

/**
 * ((y/M)^L - 1) / (L S), or ln(y/M)/S at L = 0, for every y: the transform itself, for likelihoods.
 * Bounded on one side: with L < 0 no size is farther than -1 / (L S) above the median.
 */
export function lmsPowerZScore({ l, m, s }: Lms, value: number): number {
  const log = Math.log(value / m);
  // expm1 keeps the digits that (y/M)^L - 1 loses when L is near zero.
  return Math.abs(l) < L_IS_ZERO ? log / s : Math.expm1(l * log) / (l * s);
}

/**
 * The z-score of a size. Within 3 it is the LMS formula; farther out it goes on at the rate of the last z, so
 * that an extreme child still gets a z-score that tells how extreme (WHO 2006 continues its standards in the
 * same spirit beyond 3 SD). lmsZScore({ l: 1, m: 100, s: 0.1 }, 110) = 1.
 */
export function lmsZScore(lms: Lms, value: number): number {
  const z = lmsPowerZScore(lms, value);
  const end = tail(lms, z);
  if (!end) return z;
  const ratio = value / end.size;
  return end.z + (z > 0 ? ratio - 1 : Math.log(ratio)) / end.rate;
}

/**
 * The size at a z-score: M (1 + L S z)^(1/L), or M exp(S z) at L = 0, carried on beyond 3 as `lmsZScore` does.
 * Finite, positive and rising in z. lmsSizeAtZ({ l: 1, m: 100, s: 0.1 }, 1) = 110.
 */
export function lmsSizeAtZ(lms: Lms, z: number): number {
  const end = tail(lms, z);
  if (!end) return powerSize(lms, z);
  const step = end.rate * (z - end.z);
  return end.size * (z > 0 ? 1 + step : Math.exp(step));
}

/** Where the formula ends on the side of z: the z, its size, and the relative growth of size a unit of z there. */
function tail(lms: Lms, z: number): { z: number; size: number; rate: number } | null {
  const skew = lms.l * lms.s;
  const last = Math.min(LAST_Z, (1 - LEAST_BASE) / Math.abs(skew));
  if (!(Math.abs(z) > last)) return null;
  const at = Math.sign(z) * last;
  return { z: at, size: powerSize(lms, at), rate: lms.s / (1 + skew * at) };
}

function powerSize({ l, m, s }: Lms, z: number): number {
  return Math.abs(l) < L_IS_ZERO ? m * Math.exp(s * z) : m * Math.exp(Math.log1p(l * s * z) / l);
}
