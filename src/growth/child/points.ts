import type { Side } from '../../records/measure.js';

/** Where a curve is looked at: n places, each a measure (index into the model's list), a side and an age. */
export interface Points {
  readonly n: number;
  readonly measure: Int32Array;
  /** -1 left, 1 right, 0 the mean of both or a measure without sides. */
  readonly side: Int8Array;
  /** Age on the log-age axis (`logAge`). */
  readonly x: Float64Array;
}

export const sideCode = (side: Side): -1 | 0 | 1 => (side === 'left' ? -1 : side === 'right' ? 1 : 0);

export function points(rows: readonly { measure: number; side: number; x: number }[]): Points {
  return {
    n: rows.length,
    measure: Int32Array.from(rows, (r) => r.measure),
    side: Int8Array.from(rows, (r) => r.side),
    x: Float64Array.from(rows, (r) => r.x),
  };
}
