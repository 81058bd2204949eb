import { normalTail } from '../../statistics/normal-tail.js';
import { FAR_FACTOR, FAR_SHARE, NEVER } from './deviation.js';

/** What is known of a device's own deviation from a stated limit: its SD, and per draw the bounds that judgements leave. */
export interface OwnDeviation {
  readonly sdMm: number;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/**
 * Chance, over all that one draw's own limit may be, that an excess over the stated limit was not too much: between the
 * bounds near T(z) + far T(z / FAR_FACTOR) + rest, z = scale x excess, T the normal tail. The distribution is that which
 * `drawDeviation` draws from. Written over draw by draw.
 */
export const law = { low: 0, high: 0, scale: 0, near: 0, far: 0, rest: 0 };

/** Sets the law of one draw; its scale is not a number where a bound itself is the answer (see `betweenClose`). */
export function setLaw(own: OwnDeviation, draw: number): void {
  const low = own.low[draw];
  const high = own.high[draw];
  // The tail the bounds lie in, so that small shares keep their digits.
  const sign = high <= 0 ? -1 : 1;
  const scale = sign / own.sdMm;
  const nearEnd = normalTail(high * scale);
  const farEnd = normalTail((high * scale) / FAR_FACTOR);
  const nearWidth = sign * (normalTail(low * scale) - nearEnd);
  const farWidth = sign * (normalTail((low * scale) / FAR_FACTOR) - farEnd);
  law.low = low;
  law.high = high;
  law.scale = nearWidth < NEVER || farWidth < NEVER ? Number.NaN : scale;
  law.near = (sign * (1 - FAR_SHARE)) / nearWidth;
  law.far = (sign * FAR_SHARE) / farWidth;
  law.rest = -law.near * nearEnd - law.far * farEnd;
}

/** The same chance where nearly nothing is left between the bounds: a tenth of the SD from the nearer one, as it is drawn. */
export function betweenClose(sdMm: number, excess: number): number {
  const { low, high } = law;
  const inside = low > 0 ? 1 - (excess - low) / (0.1 * sdMm) : (high - excess) / (0.1 * sdMm);
  return Math.min(1, Math.max(0, inside));
}
