import type { Side } from '../../records/measure.js';

/** Where a curve is looked at: n places, each a measure (index into the model's list), a side and an age. */
export interface Points {
  readonly n: number;
  readonly measure: Int32Array;
  /** -1 left, 1 right, 0 the mean of both or a measure without sides. */
  readonly side: Int8Array;
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

export const sideCode = (side: Side): -1 | 0 | 1 => (side === 'left' ? -1 : side === 'right' ? 1 : 0);

export function points(rows: readonly { measure: number; side: number; x: number }[]): Points {
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
    x,
    ages: Float64Array.from(ageAt.keys()),
    curveMeasure: Int32Array.from(curveMeasure),
    curveAge: Int32Array.from(curveAge),
    curve,
  };
}

const MOST_MEASURES = 1024;
