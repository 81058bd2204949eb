import { referenceAgeYears } from '../records/age.js';
import { type DayNumber, isoDate } from '../records/dates.js';
import type { MeasureId } from '../records/measure.js';
import type { Child } from '../records/records.js';
import { lmsAt, type References, sizeAtZ } from '../reference/reference.js';
import { normalQuantile } from '../statistics/normal-quantile.js';
import type { ChartWords } from './chart-words.js';
import type { Row } from './fill-spec.js';

/** Size in `measure`'s unit at a centile (0..100) of the reference, or null where the reference ends. */
export type CentileAt = (
  sex: 'male' | 'female',
  measure: MeasureId,
  ageYears: number,
  centile: number,
) => number | null;

const CENTILES = [3, 10, 25, 50, 75, 90, 97];
const BANDS: readonly (readonly [number, number])[] = [
  [3, 97],
  [10, 90],
  [25, 75],
];
/** Straight pieces a curve is drawn in: so many a picture cannot be told from the curve. */
export const CURVE_STEPS = 24;
const SHORTEST_STEP_DAYS = 28;

/**
 * Reference bands (3-97, 10-90, 25-75), lines and their labels over a span of days. Where a child's sex is unknown
 * both references are drawn, the boys' dotted, as 3, 50 and 97 only, and neither is chosen for the reader. A family
 * sees one soft band (3-97) and no centile.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the rows of one picture, level by level over the days
export function centileRows(
  child: Pick<Child, 'birthDate' | 'sex' | 'gestationWeeks'>,
  measure: MeasureId,
  span: { from: DayNumber; to: DayNumber },
  centileAt: CentileAt,
  audience: 'clinician' | 'family',
  words: ChartWords,
  /** Whose centiles they are is said under the title, where there is no room beside them. */
  narrow = false,
): { bands: Row[]; lines: Row[]; labels: Row[] } {
  const unknown = child.sex === 'unknown';
  const sexes = unknown ? (['female', 'male'] as const) : ([child.sex] as ('male' | 'female')[]);
  const bands: Row[] = [];
  const lines: Row[] = [];
  const labels: Row[] = [];
  for (const sex of sexes) {
    const name = sex === 'female' ? words.girls : words.boys;
    const levels = unknown ? [3, 50, 97] : CENTILES;
    const ranges = audience === 'family' || unknown ? BANDS.slice(0, 1) : BANDS;
    const step = Math.max(SHORTEST_STEP_DAYS, (span.to - span.from) / CURVE_STEPS);
    for (let day = span.from; day < span.to + step; day += step) {
      const at = Math.min(Math.round(day), span.to);
      const age = referenceAgeYears(child.birthDate, at, child.gestationWeeks);
      const size = Object.fromEntries(CENTILES.map((c) => [c, centileAt(sex, measure, age, c)]));
      if (Object.values(size).some((s) => s === null)) continue;
      const date = isoDate(at);
      for (const [low, high] of ranges)
        bands.push({ date, band: `${sex} ${low}-${high}`, low: size[low], high: size[high] });
      for (const c of levels)
        lines.push({
          date,
          line: `${sex} ${c}`,
          centile: c,
          second: unknown && sex === 'male',
          value: size[c],
        });
    }
    if (audience === 'family') continue;
    for (const c of levels) {
      const last = lines.findLast((l) => l.line === `${sex} ${c}`);
      const median = c === 50 && !narrow ? `${c} (${words.centile}, ${name})` : `${c}`;
      if (last) labels.push({ date: last.date, value: last.value, label: unknown ? `${name} ${c}` : median });
    }
  }
  if (audience === 'family' && bands.length > 0) {
    const [first] = bands;
    labels.push({ date: first.date, value: first.low, label: words.usual });
  }
  return { bands, lines, labels };
}

/** Centile lines of a loaded reference, for a growth chart. */
export const referenceCentiles =
  (references: References): CentileAt =>
  (sex, measure, ageYears, centile) => {
    const lms = lmsAt(references, measure, sex, ageYears);
    return lms && sizeAtZ(lms, normalQuantile(centile / 100));
  };
