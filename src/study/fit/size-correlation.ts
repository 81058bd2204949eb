import type { MeasureId } from '../../records/measure.js';
import { lmsAt, type References, zScore } from '../../reference/reference.js';
import type { SurveyRecord } from '../../reference/survey-records.js';
import { cholesky, choleskySolve } from '../../statistics/cholesky.js';
import { groupBy } from '../../statistics/group-by.js';

const ROUNDS = 60;
/** How many children 'no correlation' counts for: settles pairs that were hardly ever measured together. */
const PRIOR_CHILDREN = 5;
const FARTHEST_Z = 4.5;

/**
 * Correlation of z-scores between measures over children measured once, most of them only in part: maximum
 * likelihood of a multivariate normal with values missing, by expectation-maximisation (Little & Rubin 2002,
 * Statistical Analysis with Missing Data, ch. 11). Always positive definite.
 */
export function sizeCorrelation(
  records: readonly SurveyRecord[],
  measures: readonly MeasureId[],
  refs: References,
): number[][] {
  const rows = deviations(records, measures, refs);
  const patterns = [...groupBy(rows, (r) => r.map((v) => +Number.isFinite(v)).join('')).values()];
  let c = measures.map((_, i) => measures.map((_, j) => +(i === j)));
  for (let round = 0; round < ROUNDS; round++) {
    const sum = measures.map((_, i) => measures.map((_, j) => (i === j ? PRIOR_CHILDREN : 0)));
    for (const group of patterns) addExpected(sum, group, c);
    c = sum.map((r) => r.map((v) => v / (rows.length + PRIOR_CHILDREN)));
  }
  return c.map((r, i) => r.map((v, j) => v / Math.sqrt(c[i][i] * c[j][j])));
}

/** Adds what children measured at the same places are expected to have at all of them. */
function addExpected(sum: number[][], group: readonly number[][], c: readonly (readonly number[])[]): void {
  const seen = group[0].flatMap((_, j) => (Number.isFinite(group[0][j]) ? [j] : []));
  const missing = group[0].flatMap((_, j) => (Number.isFinite(group[0][j]) ? [] : [j]));
  const factor = cholesky(seen.map((i) => seen.map((j) => c[i][j])));
  if (!factor) throw new Error('the correlation of measures is not positive definite');
  const weights = missing.map((m) =>
    choleskySolve(
      factor,
      seen.map((j) => c[m][j]),
    ),
  );
  for (const row of group) {
    const full = Float64Array.from(row);
    missing.forEach((m, i) => {
      full[m] = seen.reduce((s, j, k) => s + weights[i][k] * row[j], 0);
    });
    for (let i = 0; i < sum.length; i++) for (let j = 0; j < sum.length; j++) sum[i][j] += full[i] * full[j];
  }
  missing.forEach((m, i) => {
    for (const n of missing)
      sum[m][n] += group.length * (c[m][n] - seen.reduce((s, j, k) => s + weights[i][k] * c[j][n], 0));
  });
}

/** Z-scores of the children measured at more than one place, NaN where they were not, less their means. */
function deviations(
  records: readonly SurveyRecord[],
  measures: readonly MeasureId[],
  refs: References,
): number[][] {
  const rows = records.flatMap((r) => {
    if (r.ageYears < 2 || r.ageYears > 19) return [];
    const z = measures.map((m) => {
      const lms = lmsAt(refs, m, r.sex, r.ageYears);
      const value = r.values[m];
      const score = lms && value !== undefined ? zScore(lms, value) : Number.NaN;
      return Math.abs(score) < FARTHEST_Z ? score : Number.NaN;
    });
    return z.filter(Number.isFinite).length > 1 ? [z] : [];
  });
  // References published for another population leave a shift; correlation is about deviations.
  for (let j = 0; j < measures.length; j++) {
    const seen = rows.map((r) => r[j]).filter(Number.isFinite);
    const mean = seen.reduce((a, b) => a + b, 0) / Math.max(1, seen.length);
    for (const r of rows) r[j] -= mean;
  }
  return rows;
}
