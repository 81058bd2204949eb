import { normalTail } from '../../statistics/normal-tail.js';
import { FAR_FACTOR, FAR_SHARE, NEVER } from './deviation.js';

/**
 * What is known of a device's own deviation from a stated limit: its SD, and per draw the bounds that judgements leave
 * and the law between them. Chance, over all that a draw's own limit may be, that an excess over the stated limit was
 * not too much: near T(z) + far T(z / FAR_FACTOR) + rest, z = scale x excess, T the normal tail. The distribution is
 * that which `drawDeviation` draws from.
 */
export interface OwnDeviation {
  readonly sdMm: number;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Not a number where a bound itself is the answer (see `betweenClose`). */
  readonly scale: Float64Array;
  readonly near: Float64Array;
  readonly far: Float64Array;
  readonly rest: Float64Array;
}

export function ownDeviation(sdMm: number, low: Float64Array, high: Float64Array): OwnDeviation {
  const draws = low.length;
  const [scale, near, far, rest] = [0, 1, 2, 3].map(() => new Float64Array(draws));
  for (let i = 0; i < draws; i++) {
    if (i > 0 && low[i] === low[i - 1] && high[i] === high[i - 1]) {
      scale[i] = scale[i - 1];
      near[i] = near[i - 1];
      far[i] = far[i - 1];
      rest[i] = rest[i - 1];
      continue;
    }
    // The tail the bounds lie in, so that small shares keep their digits.
    const sign = high[i] <= 0 ? -1 : 1;
    const perMm = sign / sdMm;
    const nearEnd = normalTail(high[i] * perMm);
    const farEnd = normalTail((high[i] * perMm) / FAR_FACTOR);
    const nearWidth = sign * (normalTail(low[i] * perMm) - nearEnd);
    const farWidth = sign * (normalTail((low[i] * perMm) / FAR_FACTOR) - farEnd);
    scale[i] = nearWidth < NEVER || farWidth < NEVER ? Number.NaN : perMm;
    near[i] = (sign * (1 - FAR_SHARE)) / nearWidth;
    far[i] = (sign * FAR_SHARE) / farWidth;
    rest[i] = -near[i] * nearEnd - far[i] * farEnd;
  }
  return { sdMm, low, high, scale, near, far, rest };
}

/** Chance, over all that a draw's own limit may be, that an excess above its lower bound was not too much. */
export function chanceHeld(own: OwnDeviation, draw: number, excess: number): number {
  if (excess >= own.high[draw]) return 0;
  const z = excess * own.scale[draw];
  return Number.isNaN(z)
    ? betweenClose(own.sdMm, own.low[draw], own.high[draw], excess)
    : own.near[draw] * normalTail(z) + own.far[draw] * normalTail(z / FAR_FACTOR) + own.rest[draw];
}

/** The same chance where nearly nothing is left between the bounds: a tenth of the SD from the nearer one, as it is drawn. */
function betweenClose(sdMm: number, low: number, high: number, excess: number): number {
  const inside = low > 0 ? 1 - (excess - low) / (0.1 * sdMm) : (high - excess) / (0.1 * sdMm);
  return Math.min(1, Math.max(0, inside));
}
