import { groupBy } from '../../statistics/group-by.js';
import { readTable } from '../population/curve-table.js';
import { ageOfLogAge } from '../population/growth-age.js';
import type { SexCurves } from '../population/sex-curves.js';
import type { Reading } from './readings.js';

/** Visits which lie so near to each other are a season, years. */
const SEASON_YEARS = 0.35;
/** Readings of a season that differ by more than this many of their joint errors from what is due are left alone. */
const AGREE_WITHIN_SD = 3;

/**
 * Old readings of a series within a season made one: what a child did years ago tells of it in outline, and the sums grow
 * with the cube of the readings. Readings of the last `recentYears` stand by themselves. Readings that do not agree stay as they are, for doubt to look at.
 */
export function condenseOld(
  seen: readonly Reading[],
  curves: SexCurves,
  recentYears: number,
): readonly Reading[] {
  const ages = [...new Set(seen.map((r) => r.ageYears))].sort((a, b) => b - a);
  const seasonOf = new Map<number, number>();
  let begin = Number.POSITIVE_INFINITY;
  for (const age of ages) {
    if (ages[0] - age < recentYears || begin - age > SEASON_YEARS) begin = age;
    seasonOf.set(age, begin);
  }
  if (new Set(seasonOf.values()).size === ages.length) return seen;
  const groups = groupBy(seen, (r) => `${r.measure}/${r.side}/${seasonOf.get(r.ageYears)}`);
  return [...groups.values()].flatMap((group) => combined(group, curves)).sort((a, b) => a.x - b.x);
}

function combined(group: Reading[], { median }: SexCurves): Reading[] {
  const [first] = group;
  if (group.length === 1) return group;
  const curve = median[first.measure];
  // What the reference child grew in the season is taken out and put back.
  const off = group.map((r) => r.value - readTable(curve, r.x));
  const precision = group.reduce((sum, r) => sum + 1 / r.variance, 0);
  const mean = (of: (r: Reading, i: number) => number) =>
    group.reduce((sum, r, i) => sum + of(r, i) / r.variance, 0) / precision;
  const middle = mean((_, i) => off[i]);
  const x = mean((r) => r.x);
  const due = Math.abs(readTable(curve, group[group.length - 1].x) - readTable(curve, first.x));
  const strays = group.some(
    (r, i) => Math.abs(off[i] - middle) > AGREE_WITHIN_SD * Math.sqrt(r.variance) + due / 2,
  );
  if (strays) return group;
  const ids = group.flatMap((r) => r.ids);
  const value = middle + readTable(curve, x);
  return [{ ...first, ids, x, ageYears: ageOfLogAge(x), value, variance: 1 / precision }];
}
