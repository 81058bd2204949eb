import { logAge } from '../../growth/population/growth-age.js';
import { lmsAt, type References, zScore } from '../../reference/reference.js';
import { denseCholesky, denseForward, denseLogDeterminant } from '../../statistics/dense-cholesky.js';
import { maternThreeHalves } from '../../statistics/matern-three-halves.js';

/** A child followed in infancy: length, mm. */
export interface InfantRecord {
  readonly cohort: string;
  readonly sex: 'male' | 'female';
  readonly visits: readonly { readonly ageYears: number; readonly lengthMm: number }[];
}
export interface InfantWandering {
  readonly sizeShare: number;
  readonly lengthScale: number;
  /** SD of the wandering, z. */
  readonly sd: number;
  readonly errorMm: number;
  readonly children: number;
}

/** Most readings of one child that are used, evenly through its record: daily readings would not tell more. */
const MOST_VISITS = 18;

/** Level and wandering of infants' length z-scores by maximum likelihood over a grid of four parameters. */
export function infantWandering(infants: readonly InfantRecord[], refs: References): InfantWandering {
  const children = infants.flatMap((c) => {
    const known = c.visits.flatMap(({ ageYears, lengthMm }) => {
      const lms = lmsAt(refs, 'stature', c.sex, ageYears);
      if (!lms || ageYears > 2.5) return [];
      const z = zScore(lms, lengthMm);
      return Math.abs(z) < 6
        ? [{ x: logAge(ageYears), z, perMm: 1 / (lms.m * lms.s), cohort: c.cohort }]
        : [];
    });
    const step = Math.max(1, known.length / MOST_VISITS);
    const thin = known.filter((_, i) => Math.floor(i / step) !== Math.floor((i - 1) / step));
    return thin.length > 3 ? [thin] : [];
  });
  const cohorts = [...new Set(infants.map((c) => c.cohort))];
  const mean = new Map(
    cohorts.map((name) => {
      const all = children.flat().filter((r) => r.cohort === name);
      return [name, all.reduce((s, r) => s + r.z, 0) / Math.max(1, all.length)];
    }),
  );
  let best = { log: -Infinity, size: 0, sd: 0, lengthScale: 0, errorMm: 0 };
  for (const size of [0.6, 0.7, 0.8, 0.9, 1])
    for (const sd of [0.3, 0.4, 0.5, 0.6, 0.7, 0.8])
      for (const lengthScale of [0.25, 0.35, 0.5, 0.7, 1])
        for (const errorMm of [3, 4.5, 6]) {
          let log = 0;
          for (const rows of children) log += logLikelihood(rows, mean, size, sd, lengthScale, errorMm);
          if (log > best.log) best = { log, size, sd, lengthScale, errorMm };
        }
  const { size, sd, lengthScale, errorMm } = best;
  return {
    sizeShare: size ** 2 / (size ** 2 + sd ** 2),
    lengthScale,
    sd,
    errorMm,
    children: children.length,
  };
}

function logLikelihood(
  rows: readonly { x: number; z: number; perMm: number; cohort: string }[],
  mean: ReadonlyMap<string, number>,
  size: number,
  sd: number,
  lengthScale: number,
  errorMm: number,
): number {
  const n = rows.length;
  const v = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++)
      v[i * n + j] = size ** 2 + sd ** 2 * maternThreeHalves(rows[i].x - rows[j].x, lengthScale);
    v[i * n + i] += (errorMm * rows[i].perMm) ** 2;
  }
  if (!denseCholesky(v, n)) return -Infinity;
  const r = Float64Array.from(rows, (row) => row.z - (mean.get(row.cohort) as number));
  denseForward(v, n, r);
  return -0.5 * (r.reduce((s, x) => s + x * x, 0) + denseLogDeterminant(v, n));
}
