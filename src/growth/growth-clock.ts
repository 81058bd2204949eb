/** How abruptly the clock stops, log-age (about half a year at 16). */
const SOFTNESS = 0.03;

/**
 * The clock a child's wandering runs on: log-age while bones grow, standing still once growth has ended, so
 * that a finished bone does not go on changing. `end` is the log-age at which growth is practically over.
 */
export function growthClock(x: number, end: number): number {
  const left = (end - x) / SOFTNESS;
  if (left > 30) return x;
  return end - SOFTNESS * Math.log1p(Math.exp(left));
}
