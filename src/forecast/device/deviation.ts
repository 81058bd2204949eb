import { normalCdf } from '../../statistics/normal-cdf.js';
import { normalQuantile } from '../../statistics/normal-quantile.js';

/** Some devices' limits lie far from the rule: this share deviates this many times as much (common practice, no source). */
export const FAR_SHARE = 0.05;
export const FAR_FACTOR = 3;
/** Below this chance the bound itself is the answer. */
export const NEVER = 1e-12;

/**
 * How far a device's real limit lies from the stated one: a Normal of SD `sd`, now and then three times as wide.
 * Chance that it lies between two bounds, mm.
 */
export function deviationChance(sd: number, low: number, high: number): number {
  const wide = FAR_FACTOR * sd;
  return (1 - FAR_SHARE) * between(sd, low, high) + FAR_SHARE * between(wide, low, high);
}

/**
 * A draw of it between two bounds; `which` and `where` are uniform on (0, 1). Whether a device is of the wide kind does
 * not hang on the bounds: a larger stated limit then never draws a smaller real one.
 */
export function drawDeviation(sd: number, low: number, high: number, which: number, where: number): number {
  const scale = deviationScale(sd, which);
  if (low > 0) {
    const far = normalCdf(-high / scale);
    const near = normalCdf(-low / scale);
    if (near - far < NEVER) return low + 0.1 * scale * where;
    return Math.min(high, -scale * normalQuantile(far + (1 - where) * (near - far)));
  }
  const below = normalCdf(low / scale);
  const above = normalCdf(high / scale);
  if (above - below < NEVER) return high - 0.1 * scale * (1 - where);
  return Math.min(high, Math.max(low, scale * normalQuantile(below + where * (above - below))));
}

/** SD of the kind of device that a uniform picks. */
export const deviationScale = (sd: number, which: number): number =>
  which < FAR_SHARE ? FAR_FACTOR * sd : sd;

/** Share of a Normal between two bounds, from the tail they lie in so that small shares keep their digits. */
function between(sd: number, low: number, high: number): number {
  if (low > 0) return Math.max(0, normalCdf(-low / sd) - normalCdf(-high / sd));
  return Math.max(0, normalCdf(high / sd) - normalCdf(low / sd));
}
