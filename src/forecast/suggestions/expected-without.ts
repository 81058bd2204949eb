import { median } from 'simple-statistics';
import { decimalAgeYears } from '../../records/age.js';
import { DAYS_A_YEAR, dayNumber, type IsoDate } from '../../records/dates.js';
import { technicalErrorAt } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';

/** What a reading was expected to be from the child's other readings of that measure, and how far off is beyond belief. */
export interface Expectation {
  readonly value: number;
  /** Beyond this difference the reading is more likely a slip than a size, in the measure's unit. */
  readonly doubtful: number;
}

/** Sizes can differ by this share between sides and neighbours before a slip is suspected (common practice, no source). */
const SHARE = 0.1;
const YEARS_NEAR = 2;

/**
 * Robust expectation of one reading: the median, over the child's other readings of the measure on either side, of
 * that reading carried along the median slope between all pairs of them (Theil 1950, Sen 1968). With fewer than three
 * others the median of those within two years, and more doubt.
 */
export function expectedWithout(
  reading: Measurement,
  all: readonly Measurement[],
  birthDate: IsoDate,
): Expectation | null {
  // The two head diagonals differ because the head is flattened: one side says nothing of the other.
  const others = all.filter(
    (m) =>
      m.measure === reading.measure &&
      m.id !== reading.id &&
      (m.measure !== 'head_diagonal' || m.side === reading.side),
  );
  const at = dayNumber(reading.date);
  const near = others.filter((m) => Math.abs(dayNumber(m.date) - at) <= YEARS_NEAR * 366);
  if (near.length === 0) return null;
  const slopes = near.flatMap((a, i) =>
    near.slice(i + 1).flatMap((b) => {
      const days = dayNumber(b.date) - dayNumber(a.date);
      return Math.abs(days) < 45 ? [] : [(b.value - a.value) / days];
    }),
  );
  const slope = near.length >= 3 && slopes.length > 0 ? Math.max(0, median(slopes)) : 0;
  const value = median(near.map((m) => m.value + slope * (at - dayNumber(m.date))));
  const error =
    reading.technicalError ?? technicalErrorAt(reading.measure, decimalAgeYears(birthDate, reading.date));
  const distanceYears = Math.min(...near.map((m) => Math.abs(dayNumber(m.date) - at))) / DAYS_A_YEAR;
  return { value, doubtful: Math.max(5 * error, SHARE * value) * (1 + distanceYears) };
}
