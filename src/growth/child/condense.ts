import { floatsOf } from '../../statistics/floats-of.js';
import { readTable } from '../population/curve-table.js';
import { points, sideShift, sides } from '../population/points.js';
import type { ChildPrior } from '../population/submodel.js';
import type { Candidate, Data } from './components.js';
import type { Reading } from './readings.js';

/**
 * The readings with both sides of a visit made one: enough to see where the child's tempo lies, at an eighth of the
 * work. What a child is finally weighed by are the readings themselves.
 */
export function condense(
  { submodel }: Candidate,
  seen: readonly Reading[],
  variance: Float64Array,
  prior: ChildPrior,
): Data {
  const groups = new Map<string, { reading: Reading; precision: number; sum: number; count: number }>();
  seen.forEach((r, i) => {
    const sd = readTable(submodel.curves.sd[r.measure], r.x);
    const shift = sideShift(r.side, prior.left[r.measure], prior.right[r.measure]);
    const precision = 1 / (variance[i] + (r.side === sides.middle ? 0 : (sd * prior.sideSd[r.measure]) ** 2));
    const key = `${r.measure}/${r.x}`;
    const group = groups.get(key) ?? { reading: r, precision: 0, sum: 0, count: 0 };
    group.precision += precision;
    group.sum += precision * (r.value - sd * shift);
    group.count++;
    groups.set(key, group);
  });
  const all = [...groups.values()];
  return {
    at: points(all.map(({ reading: { measure, x } }) => ({ measure, side: sides.middle, x }))),
    value: floatsOf(all, (g) => g.sum / g.precision),
    variance: floatsOf(all, (g) => 1 / g.precision),
  };
}
