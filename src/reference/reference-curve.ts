import type { MeasureId } from '../records/measure.js';
import type { Lms } from '../statistics/lms.js';
import { monotoneCubic } from '../statistics/monotone-cubic.js';
import type { ReferenceRow, ReferenceSex } from './reference-table.js';

/** One measure's distribution over age for one sex. */
export interface ReferenceCurve {
  /** The folder in reference-data the figures come from. */
  readonly source: string;
  readonly fromYears: number;
  readonly toYears: number;
  /** Smooth between the table's ages; call only within them. */
  readonly at: (ageYears: number) => Lms;
}

/** Curves by `referenceKey`. */
export interface References {
  readonly source: string;
  readonly curves: ReadonlyMap<string, ReferenceCurve>;
}

export const referenceKey = (measure: MeasureId, sex: ReferenceSex): string => `${measure}/${sex}`;

/**
 * L, M and S between the ages of a table by monotone cubics: no kink in velocity at a table's ages, no
 * median that falls where the table rises, and the table's own figures at its own ages.
 */
export function referenceCurve(rows: readonly ReferenceRow[], source: string): ReferenceCurve {
  const sorted = [...rows].sort((a, b) => a.ageYears - b.ageYears);
  const ages = sorted.map((r) => r.ageYears);
  const l = monotoneCubic(
    ages,
    sorted.map((r) => r.l),
  );
  const m = monotoneCubic(
    ages,
    sorted.map((r) => r.m),
  );
  const s = monotoneCubic(
    ages,
    sorted.map((r) => r.s),
  );
  return {
    source,
    fromYears: ages[0],
    toYears: ages[ages.length - 1],
    at: (ageYears) => ({ l: l(ageYears), m: m(ageYears), s: s(ageYears) }),
  };
}
