import { type MeasureId, technicalErrorAt } from '../../records/measure.js';
import { groupBy } from '../../statistics/group-by.js';
import { readTable } from '../population/curve-table.js';
import type { SexCurves } from '../population/sex-curves.js';
import type { Reading } from './readings.js';

/** Bones that stop together. Girths and weight come and go; stature is trunk and legs. */
export const boneGroups = {
  feet: ['foot_length', 'foot_breadth', 'ankle_height'],
  legs: ['knee_height', 'hip_height', 'asis_height', 'leg_length'],
  trunk: ['sitting_height', 'pelvic_breadth'],
} as const satisfies Record<string, readonly MeasureId[]>;
export type BoneGroup = keyof typeof boneGroups;

/** A group of bones whose readings hardly grew where they should have. */
export interface Standstill {
  readonly group: BoneGroup;
  /** Log-age of the first and of the last reading of the run. */
  readonly from: number;
  readonly to: number;
}

/** Shorter runs say nothing, years. */
const SHORTEST_YEARS = 0.4;
/** A run grew at most this share of what the median child grows, which must be worth as many errors of a reading. */
const MOST_SHARE = 0.4;
const LEAST_ERRORS = 1.5;

/** The longest run of each group, if any. What the runs are worth is for the likelihood to say. */
export function standstills(
  seen: readonly Reading[],
  measures: readonly MeasureId[],
  curves: SexCurves,
): Standstill[] {
  return (Object.keys(boneGroups) as BoneGroup[]).flatMap((group) => {
    const ids: readonly MeasureId[] = boneGroups[group];
    const own = seen.filter((r) => ids.includes(measures[r.measure]));
    const runs = [...groupBy(own, (r) => `${r.measure}/${r.side}`).values()].flatMap((series) => {
      const last = series[series.length - 1];
      const error = technicalErrorAt(measures[last.measure], last.ageYears);
      const due = (r: Reading) =>
        readTable(curves.median[r.measure], last.x) - readTable(curves.median[r.measure], r.x);
      const before = series[series.length - 2];
      // Growth that goes on again is none.
      if (!before || last.value - before.value > Math.max(error, MOST_SHARE * due(before))) return [];
      const first = series.find(
        (r) =>
          last.ageYears - r.ageYears >= SHORTEST_YEARS &&
          due(r) > LEAST_ERRORS * error &&
          last.value - r.value < MOST_SHARE * due(r),
      );
      return first ? [{ group, from: first.x, to: last.x }] : [];
    });
    return runs.sort((a, b) => a.from - b.from).slice(0, 1);
  });
}
