import { monotoneCubic } from '../../statistics/monotone-cubic.js';
import type { BacktestMeasure, GrowthRecord } from './growth-record.js';

/** Rows farther apart than this are not interpolated between, years. */
const LARGEST_GAP_YEARS = 1.1;
/** A row this near to the age asked for is the truth itself, years. */
const SAME_AGE_YEARS = 0.02;

/** What a child measured at any age of its clean record, never outside it. */
export function trueCurve(record: GrowthRecord, measure: BacktestMeasure) {
  const rows = record.visits
    .map((v) => ({ age: v.ageYears, size: v.sizes[measure] }))
    .filter((r): r is { age: number; size: number } => r.size !== undefined);
  if (rows.length < 2) return null;
  const ages = rows.map((r) => r.age);
  let greatest = -Infinity;
  const risen = rows.map((r) => (greatest = Math.max(greatest, r.size)));
  const curve = monotoneCubic(ages, risen);
  return {
    toAge: ages[ages.length - 1],
    // Monotone through the running greatest reading: bones do not shrink.
    at: curve,
    /** The size at an age and whether the record has a row there; null outside the rows or across a gap. */
    truth(ageYears: number) {
      const after = ages.findIndex((age) => age >= ageYears - SAME_AGE_YEARS);
      if (after < 0) return null;
      if (Math.abs(ages[after] - ageYears) <= SAME_AGE_YEARS)
        return { size: rows[after].size, recorded: true };
      if (after === 0 || ages[after] - ages[after - 1] > LARGEST_GAP_YEARS) return null;
      return { size: curve(ageYears), recorded: false };
    },
  };
}
