import { normalQuantile } from './normal-quantile.js';

/**
 * Interval for a proportion from `count` of `n`, without continuity correction: Wilson (1927), J. Am. Stat. Assoc.
 * 22:209; method 3 of Newcombe (1998), Statistics in Medicine 17:857. Without any trial it is 0 to 1.
 * wilsonInterval(81, 263) = 0.2553 to 0.3662.
 */
export function wilsonInterval(count: number, n: number, level = 0.95): { low: number; high: number } {
  if (n === 0) return { low: 0, high: 1 };
  const z2 = normalQuantile((1 + level) / 2) ** 2;
  const share = count / n;
  const middle = share + z2 / (2 * n);
  const half = Math.sqrt((share * (1 - share) + z2 / (4 * n)) * (z2 / n));
  const width = 1 + z2 / n;
  // At none and at all the limit is 0 or 1 but for rounding.
  return {
    low: count === 0 ? 0 : (middle - half) / width,
    high: count === n ? 1 : (middle + half) / width,
  };
}
