import { floatsOf } from '../../statistics/floats-of.js';
import { readTable } from './curve-table.js';
import { type Points, sideOverlap } from './points.js';
import type { SexCurves } from './sex-curves.js';
import type { ChildPrior } from './submodel.js';

/**
 * Covariance of what points i of a and j of b of one measure deviate by from the child's middle, z units: a part for
 * life, a part that comes and goes (`share`, alike by age as in `near`), and a pace of its own, more so where one side is
 * affected: a foot that has grown at two thirds of the other's pace for years is not expected to make up for it.
 */
export function sideCovariance(
  a: Points,
  b: Points,
  { sideSd, sidePace, seenFrom }: ChildPrior,
  { median, sd }: SexCurves,
  near: Float64Array,
  share: number,
): (i: number, j: number) => number {
  const grown = (p: Points) =>
    floatsOf(p.curveMeasure, (d, c) => {
      const x = p.ages[p.curveAge[c]];
      const since = readTable(median[d], x) - readTable(median[d], seenFrom);
      return (sidePace[d] * since) / readTable(sd[d], x);
    });
  const grownA = grown(a);
  const grownB = a === b ? grownA : grown(b);
  return (i, j) => {
    const [ci, cj] = [a.curve[i], b.curve[j]];
    const alike = 1 - share + share * near[a.curveAge[ci] * b.ages.length + b.curveAge[cj]];
    return (
      sideOverlap[5 * a.side[i] + b.side[j]] * (sideSd[a.measure[i]] ** 2 * alike + grownA[ci] * grownB[cj])
    );
  };
}
