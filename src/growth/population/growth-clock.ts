/** How abruptly the clock stops, log-age (about half a year at 16). */
const SOFTNESS = 0.03;

/**
 * The clock a child's residual process runs on: log-age while bones grow, standing still once growth has ended, so
 * that a finished bone does not go on changing. `end` is the log-age at which growth is practically over; any other
 * scale of age does as well, with its own `softness`.
 */
export function growthClock(x: number, end: number, softness = SOFTNESS): number {
  const left = (end - x) / softness;
  if (left > 30) return x;
  return end - softness * Math.log1p(Math.exp(left));
}
