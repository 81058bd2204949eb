import type { Side } from '../../records/measure.js';

/** Where a curve is looked at: n places, each a measure (index into the model's list), a side and an age. */
export interface Points {
  readonly n: number;
  readonly measure: Int32Array;
  /** One of `sides`. */
  readonly side: Int8Array;
  /** All are differences between the sides, which have nothing in common with anything else; else none is. */
  readonly differences: boolean;
  /** Age on the log-age axis (`logAge`). */
  readonly x: Float64Array;
  /** Different ages among them: what depends on age alone is worked out once an age. */
  readonly ages: Float64Array;
  /** Different measures and ages: both sides of a visit share one. Per curve its measure and index into `ages`. */
  readonly curveMeasure: Int32Array;
  readonly curveAge: Int32Array;
  /** Per point: its curve. */
  readonly curve: Int32Array;
}

/** What of a measure is meant: its middle (or a measure without sides), a side, the mean of both, left less right. */
export const sides = { middle: 0, left: 1, right: 2, mean: 3, difference: 4 } as const;
export type SideCode = (typeof sides)[keyof typeof sides];
export const sideCode = (side: Side): SideCode => (side === 'none' ? sides.middle : sides[side]);

/** How much of each side's own deviation from the middle is in it, by `sides`. */
const LEFT = [0, 1, 0, 0.5, 1];
const RIGHT = [0, 0, 1, 0.5, -1];
/** Of two codes (5 a + b): covariance of what their sides deviate by, where each side's deviation has a variance of one. */
export const sideOverlap = Float64Array.from(
  LEFT.flatMap((_, a) => LEFT.map((_, b) => LEFT[a] * LEFT[b] + RIGHT[a] * RIGHT[b])),
);
/** Expected deviation from the middle, from those of both sides. */
export const sideShift = (side: number, left: number, right: number): number =>
  LEFT[side] * left + RIGHT[side] * right;

export function points(rows: readonly { measure: number; side: SideCode; x: number }[]): Points {
  const n = rows.length;
  const measure = new Int32Array(n);
  const side = new Int8Array(n);
  const x = new Float64Array(n);
  const curve = new Int32Array(n);
  const ageAt = new Map<number, number>();
  const curveAt = new Map<number, number>();
  const curveMeasure: number[] = [];
  const curveAge: number[] = [];
  for (let i = 0; i < n; i++) {
    const row = rows[i];
    measure[i] = row.measure;
    side[i] = row.side;
    x[i] = row.x;
    let age = ageAt.get(row.x);
    if (age === undefined) {
      age = ageAt.size;
      ageAt.set(row.x, age);
    }
    const key = age * MOST_MEASURES + row.measure;
    let c = curveAt.get(key);
    if (c === undefined) {
      c = curveMeasure.length;
      curveAt.set(key, c);
      curveMeasure.push(row.measure);
      curveAge.push(age);
    }
    curve[i] = c;
  }
  return {
    n,
    measure,
    side,
    differences: n > 0 && rows[0].side === sides.difference,
    x,
    ages: Float64Array.from(ageAt.keys()),
    curveMeasure: Int32Array.from(curveMeasure),
    curveAge: Int32Array.from(curveAge),
    curve,
  };
}

const MOST_MEASURES = 1024;
