import { logAge } from '../../growth/population/growth-age.js';
import type { LongitudinalPopulation } from '../../growth/population/longitudinal-population.js';
import type { MeasureId } from '../../records/measure.js';
import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import { denseBackward, denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';
import { maternThreeHalves } from '../../statistics/matern-three-halves.js';
import type { FollowedChild } from './followed-records.js';

const MEASURES = ['stature', 'leg_length', 'weight'] as const satisfies readonly MeasureId[];
/** Boys' ages at the knots, years; girls' knots lie as far from their own peak on log-age. */
const KNOT_YEARS = [2, 4.5, 7, 9, 10.5, 11.7, 12.6, 13.4, 14.2, 15, 15.9, 17, 18.6, 21];
/** Before any record: size and residual SD (mm; weight in log units) and how they are shared between measures. */
const SIZE_SD = [36, 25, 0.11];
const RESIDUAL_SD = [13, 10, 0.05];
const SHARED = [
  [1, 0.85, 0.55],
  [0.85, 1, 0.4],
  [0.55, 0.4, 1],
];
const RESIDUAL_LENGTH = 0.25;
/** A finished child's shape hardly changes: residual SD from so far past the peak on (log-age), against the usual. */
const LATE_RESIDUAL = { from: 0.3, share: 0.5 };
/** Spread at the youngest and the oldest knot against that at the mean age of peak velocity. */
const YOUNGEST_SHARE = 0.65;
const OLDEST_SHARE = 1.05;

export interface LongitudinalStart {
  readonly centreYears: Readonly<Record<'male' | 'female', number>>;
  /** Median of the reference on the model's scale. */
  readonly reference: (measure: MeasureId, sex: 'male' | 'female', ageYears: number) => number;
}

/** What the estimate starts from and is shrunk to: parametric spread, mean curves of the cohort. */
export function startingLongitudinal(
  children: readonly FollowedChild[],
  start: LongitudinalStart,
): LongitudinalPopulation {
  const knots = KNOT_YEARS.map((age) => logAge(age) - logAge(start.centreYears.male));
  const at = [...clampedBSpline(knots).abscissae];
  const zeros = MEASURES.flatMap(() => at.map(() => 0));
  const mean = (sex: 'male' | 'female') =>
    MEASURES.flatMap((measure) => [
      ...meanCoefficients(meanRows(children, measure, sex, start, knots), knots),
    ]);
  return {
    measures: [...MEASURES],
    knots,
    tempoSd: { male: 0.076, female: 0.073 },
    intensitySd: { male: 0.085, female: 0.096 },
    warpFromYears: 0.5,
    warpFullYears: 2,
    mean: { male: mean('male'), female: mean('female') },
    tempoEffect: { male: zeros, female: zeros },
    intensityEffect: { male: zeros, female: zeros },
    covariance: startingCovariance(at),
    residualSd: [3.5, 3.5, 0.02],
    residualCorrelation: [
      [1, 0.6, 0.2],
      [0.6, 1, 0.1],
      [0.2, 0.1, 1],
    ],
    residualYears: 1,
  };
}

function startingCovariance(at: readonly number[]): number[][] {
  const youngest = at[0];
  const oldest = at[at.length - 1];
  const share = at.map((u) =>
    u < 0 ? 1 + (u / youngest) * (YOUNGEST_SHARE - 1) : 1 + (u / oldest) * (OLDEST_SHARE - 1),
  );
  const residual = (u: number) => {
    const late = Math.min(1, Math.max(0, u / LATE_RESIDUAL.from));
    return 1 + late * (LATE_RESIDUAL.share - 1);
  };
  const index = MEASURES.flatMap((_, d) => at.map((_, i) => [d, i] as const));
  return index.map(([d, i]) =>
    index.map(([e, j]) => {
      const near = maternThreeHalves(at[i] - at[j], RESIDUAL_LENGTH) * residual(at[i]) * residual(at[j]);
      const spread = SIZE_SD[d] * SIZE_SD[e] + RESIDUAL_SD[d] * RESIDUAL_SD[e] * near;
      return SHARED[d][e] * share[i] * share[j] * spread;
    }),
  );
}

/** Cohort readings of a sex; where the cohort has no age the reference's median, moved to meet its first year. */
function meanRows(
  children: readonly FollowedChild[],
  measure: MeasureId,
  sex: 'male' | 'female',
  start: LongitudinalStart,
  knots: readonly number[],
): { u: number; value: number }[] {
  const centre = logAge(start.centreYears[sex]);
  const seen = children
    .filter((c) => c.sex === sex)
    .flatMap((c) => c.rows.filter((r) => r.measure === measure));
  const ages = seen.map((r) => r.ageYears);
  const youngest = ages.length ? Math.min(...ages) : 25;
  const early = seen.filter((r) => r.ageYears < youngest + 1);
  const gap =
    early.reduce((s, r) => s + r.value - start.reference(measure, sex, r.ageYears), 0) /
    Math.max(1, early.length);
  const rows = seen.map((r) => ({ u: logAge(r.ageYears) - centre, value: r.value }));
  for (let u = knots[0]; u <= knots[knots.length - 1]; u += 0.02) {
    const age = Math.exp(u + centre) - 0.75;
    if (age < youngest - 0.25) rows.push({ u, value: start.reference(measure, sex, age) + gap });
  }
  return rows;
}

/** Weight of the second-difference penalty against one observation: enough to bridge a gap between knots. */
const SMOOTH = 0.3;

/**
 * Spline coefficients of a mean curve over maturity by penalised least squares (Eilers & Marx 1996, Stat Sci
 * 11:89) on points (u, value).
 */
function meanCoefficients(
  rows: readonly { u: number; value: number }[],
  knots: readonly number[],
): Float64Array {
  const spline = clampedBSpline(knots);
  const k = spline.size;
  const normal = new Float64Array(k * k);
  const right = new Float64Array(k);
  const v = new Float64Array(4);
  for (const { u, value } of rows) {
    const first = spline.basisValues(u, v, 0);
    for (let r = 0; r < 4; r++) {
      right[first + r] += v[r] * value;
      for (let s = 0; s < 4; s++) normal[(first + r) * k + first + s] += v[r] * v[s];
    }
  }
  for (let i = 0; i + 2 < k; i++)
    [1, -2, 1].forEach((a, r) => {
      [1, -2, 1].forEach((b, s) => {
        normal[(i + r) * k + i + s] += SMOOTH * a * b;
      });
    });
  for (let i = 0; i < k; i++) normal[i * k + i] += 1e-7;
  denseCholesky(normal, k);
  denseForward(normal, k, right);
  denseBackward(normal, k, right);
  return right;
}
