import { normalTail } from '../../statistics/normal-tail.js';
import { FAR_FACTOR, FAR_SHARE, NEVER } from './deviation.js';

/** What is known of a device's own deviation from a stated limit: its SD, and per draw the bounds that judgements leave. */
export interface OwnDeviation {
  readonly sdMm: number;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** One kind of device's share of what is left between the bounds, ready to be read at any excess. */
interface Kind {
  /** Per mm, with the sign that reads the tail the bounds lie in, so that small shares keep their digits. */
  scale: number;
  end: number;
  weight: number;
}
const kinds: readonly [Kind, Kind] = [
  { scale: 0, end: 0, weight: 0 },
  { scale: 0, end: 0, weight: 0 },
];

/**
 * Chance, over all that one draw's own limit may be, that no excess over the stated limit was too much so far; the excess
 * is in `out` from an index on, a row of rising values, and is replaced by the chance. The distribution is that which
 * `drawDeviation` draws from. Ends behind the first chance below `least`, and returns where it ended.
 */
export function survivals(
  own: OwnDeviation,
  draw: number,
  out: Float64Array,
  from: number,
  to: number,
  least: number,
): number {
  const low = own.low[draw];
  const high = own.high[draw];
  const lower = high <= 0;
  for (let k = 0; k < 2; k++) prepare(kinds[k], k, own.sdMm, low, high, lower);
  const [near, far] = kinds;
  const narrow = near.weight < 0 || far.weight < 0;
  for (let e = from; e < to; e++) {
    const excess = out[e];
    if (excess <= low) out[e] = 1;
    else if (excess >= high) out[e] = 0;
    else if (narrow)
      out[e] = above(near, excess, low, high, own.sdMm) + above(far, excess, low, high, own.sdMm);
    else
      out[e] =
        near.weight * Math.abs(normalTail(excess * near.scale) - near.end) +
        far.weight * Math.abs(normalTail(excess * far.scale) - far.end);
    if (out[e] < least) return e + 1;
  }
  return to;
}

function prepare(kind: Kind, k: number, sdMm: number, low: number, high: number, lower: boolean): void {
  const share = k === 0 ? 1 - FAR_SHARE : FAR_SHARE;
  const sd = k === 0 ? sdMm : FAR_FACTOR * sdMm;
  kind.scale = (lower ? -1 : 1) / sd;
  kind.end = normalTail(high * kind.scale);
  const width = Math.abs(normalTail(low * kind.scale) - kind.end);
  // No width: the bound itself is the answer, as it is where a deviation is drawn.
  kind.weight = width < NEVER ? -share : share / width;
}

function above(kind: Kind, excess: number, low: number, high: number, sdMm: number): number {
  if (kind.weight >= 0) return kind.weight * Math.abs(normalTail(excess * kind.scale) - kind.end);
  const narrow = 0.1 * sdMm;
  const part = low > 0 ? 1 - (excess - low) / narrow : (high - excess) / narrow;
  return -kind.weight * Math.min(1, Math.max(0, part));
}
