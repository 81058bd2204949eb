import { maternThreeHalves } from '../../statistics/matern-three-halves.js';
import type { Points } from './points.js';

/** Correlation of a Matern 3/2 process on a clock between the ages of two sets of points, ages of a x ages of b. */
export function betweenAges(
  a: Points,
  b: Points,
  clock: (x: number) => number,
  lengthScale: number,
): Float64Array {
  const rows = a.ages.map(clock);
  const columns = a === b ? rows : b.ages.map(clock);
  const out = new Float64Array(rows.length * columns.length);
  const n = columns.length;
  for (let i = 0; i < rows.length; i++)
    for (let j = 0; j < (a === b ? i + 1 : n); j++) {
      const alike = maternThreeHalves(rows[i] - columns[j], lengthScale);
      out[i * n + j] = alike;
      if (a === b) out[j * n + i] = alike;
    }
  return out;
}
