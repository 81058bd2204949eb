import { floatsOf } from '../../statistics/floats-of.js';
import { groupBy } from '../../statistics/group-by.js';
import { points, type SideCode, sides } from '../population/points.js';
import type { Data } from './components.js';
import type { Reading } from './readings.js';

/** Readings as parts that say nothing of each other, and where each reading is found in them. */
export interface Parts {
  /** First what the sides have in common, then their differences, a part for each measure. */
  readonly data: readonly Data[];
  /** Per reading: its place in the first part. */
  readonly place: Int32Array;
  /** Per reading of a pair: the part that holds what it differs from the other side by; 0 of a reading by itself. */
  readonly differenceIn: Int32Array;
  /** Its place there, and whether it is the larger where the difference is positive (1) or the smaller (-1). */
  readonly differenceAt: Int32Array;
  readonly sign: Int8Array;
}

/** Two sides of a visit have errors as good as alike while neither variance is so many times the other. */
const ALIKE = 1.25;

type Pair = readonly [left: number, right: number];

/**
 * Where every visit has both sides of a measure, read equally well, their means and their differences tell all that they
 * tell, and neither tells of the other: sides deviate from the child's middle alike and independently. The sums then
 * grow with half the readings. `apart`: measures that are not paired.
 */
export function partsOf(seen: readonly Reading[], apart: ReadonlySet<number>): Parts {
  const n = seen.length;
  const pairs = pairsOf(seen).filter(({ measure }) => !apart.has(measure));
  const partner = new Int32Array(n).fill(-1);
  for (const { members } of pairs)
    for (const [l, r] of members) {
      partner[l] = r;
      partner[r] = l;
    }
  const place = new Int32Array(n);
  const differenceIn = new Int32Array(n);
  const differenceAt = new Int32Array(n);
  const sign = new Int8Array(n);
  const common: Reading[] = [];
  seen.forEach((r, i) => {
    const other = partner[i];
    if (other >= 0 && other < i) place[i] = place[other];
    else
      place[i] =
        common.push(
          other < 0 ? r : combined(r, seen[other], sides.mean, (r.value + seen[other].value) / 2, 0.5),
        ) - 1;
  });
  const differences = pairs.map(({ members }, p) =>
    members.map(([l, r], at) => {
      for (const i of [l, r]) {
        differenceIn[i] = p + 1;
        differenceAt[i] = at;
        sign[i] = i === l ? 1 : -1;
      }
      return combined(seen[l], seen[r], sides.difference, seen[l].value - seen[r].value, 2);
    }),
  );
  return { data: [common, ...differences].map(dataOf), place, differenceIn, differenceAt, sign };
}

/** `times`: the variance of what is made of both, against that of one of them. */
function combined(a: Reading, b: Reading, side: Reading['side'], value: number, times: number): Reading {
  return { ...a, ids: [], side, value, variance: (times * (a.variance + b.variance)) / 2 };
}

/** A side of a measure as a row of the first part, and its share of a row of a part of differences, if any. */
export interface Split {
  readonly common: SideCode;
  readonly part: number;
  readonly share: number;
}

export function splitOf({ data }: Parts, measure: number, side: SideCode): Split {
  const part = data.findIndex(({ at }) => at.differences && at.measure[0] === measure);
  if (part < 0 || side === sides.middle) return { common: side, part: 0, share: 0 };
  return { common: sides.mean, part, share: side === sides.left ? 0.5 : -0.5 };
}

function dataOf(list: readonly Reading[]): Data {
  return {
    at: points(list),
    value: floatsOf(list, (r) => r.value),
    variance: floatsOf(list, (r) => r.variance),
  };
}

/** Measures of which no side was ever read alone. */
function pairsOf(seen: readonly Reading[]): { measure: number; members: Pair[] }[] {
  const sided = seen.flatMap((r, i) => (r.side === sides.middle ? [] : [i]));
  return [...groupBy(sided, (i) => seen[i].measure)].flatMap(([measure, own]) => {
    const visits = [...groupBy(own, (i) => seen[i].x).values()];
    const paired = visits.every(([i, j, ...more]) => {
      if (j === undefined || more.length > 0 || seen[i].side === seen[j].side) return false;
      const ratio = seen[i].variance / seen[j].variance;
      return ratio < ALIKE && ratio > 1 / ALIKE;
    });
    const isLeft = (i: number) => seen[i].side === sides.left;
    return paired ? [{ measure, members: visits.map(([i, j]): Pair => (isLeft(i) ? [i, j] : [j, i])) }] : [];
  });
}
