/** How a sex's children differ in timing; SDs on the log-age axis. */
export interface TempoSettings {
  /** Log-age of the mean age of peak height velocity. */
  readonly centre: number;
  readonly tempoSd: number;
  readonly intensitySd: number;
  /** Log-ages between which the warp comes in: none below the first, in full above the second. */
  readonly warpFrom: number;
  readonly warpFull: number;
}

/**
 * Maturity position, log-age relative to the centre: exp(intensity) (x - centre - tempo), tempo and intensity in
 * prior SD. Near birth both fade out, because spurt timing says nothing of infancy. `stretch`: exp(intensity), where many
 * ages share one.
 */
export function tempoWarp(
  x: number,
  tempo: number,
  intensity: number,
  s: TempoSettings,
  stretch = stretchOf(intensity, s),
): number {
  const u = x - s.centre;
  const part = smoothStep((x - s.warpFrom) / (s.warpFull - s.warpFrom));
  if (part === 0) return u;
  const warped = stretch * (u - tempo * s.tempoSd);
  return u + part * (warped - u);
}

export const stretchOf = (intensity: number, s: TempoSettings): number => Math.exp(intensity * s.intensitySd);

function smoothStep(f: number): number {
  if (f <= 0) return 0;
  return f >= 1 ? 1 : f * f * (3 - 2 * f);
}
