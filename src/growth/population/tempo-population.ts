import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import { denseBackward, denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';
import { maternThreeHalves } from '../../statistics/matern-three-halves.js';
import { rising } from '../../statistics/rising.js';
import { type CurveTable, readTable, tableIndex, tableLogAge } from './curve-table.js';
import { deconvolveMedian, tempoVariance } from './deconvolve-median.js';
import { logAge } from './growth-age.js';
import type { LongitudinalPopulation } from './longitudinal-population.js';
import type { SexCurves } from './sex-curves.js';
import type { TempoSettings } from './tempo-warp.js';

export interface CrossSectionalSettings {
  /** Share of a cross-sectional measure's own variance that stays for life, bones and (girths, weight). */
  readonly ownSizeShare: number;
  readonly ownSizeShareSoftTissue: number;
  /** Length of its own process over maturity, log-age. */
  readonly ownLength: number;
  /** SD of all that is a cross-sectional measure's own, against what the records of leg length suggest; never below 1. */
  readonly widen: number;
}

/** A sex's tempo population over all measures: mean curves on maturity and how children differ about them. */
export interface TempoPopulation {
  /** Coefficients per measure. */
  readonly k: number;
  readonly mean: readonly CurveTable[];
  /** Effect of tempo and of intensity on size, coefficients, one measure after another. */
  readonly tempoEffect: Float64Array;
  readonly intensityEffect: Float64Array;
  /** Covariance of all coefficients, (measures * k) squared, row-major. */
  readonly covariance: Float64Array;
  /** SD of the calendar residual process per measure, model scale at full size, and its correlation between measures. */
  readonly residualSd: Float64Array;
  readonly residualCorrelation: readonly Float64Array[];
}

/**
 * Carries what was learned from children followed for years (the longitudinal measures) over to every measure known only
 * from one look at each child (the cross-sectional ones). Their deviation is a regression on the longitudinal
 * deviations at the same maturity, with the cross-sectional correlations' weights, plus a part of its own; the
 * mean curve is the reference's median, deconvolved, moved by as many SD as the longitudinal means stand off theirs.
 */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: sums over measures and ages
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: tables worked out once, each from the one before
export function tempoPopulation(
  curves: SexCurves,
  measures: readonly string[],
  softTissue: readonly boolean[],
  correlation: readonly (readonly number[])[],
  longitudinal: LongitudinalPopulation,
  tempo: TempoSettings,
  settings: CrossSectionalSettings,
  residualSharing: number,
): TempoPopulation {
  const spline = clampedBSpline(longitudinal.knots);
  const k = spline.size;
  const D = measures.length;
  const longitudinalAt = longitudinal.measures.map((id) => measures.indexOf(id));
  const A = longitudinalAt.length;
  const x = Float64Array.from(spline.abscissae, (u) => tempo.centre + u);
  // Taking the smear out overshoots where growth stops at once: a bone's curve would fall again.
  const plain = curves.median.map((m, d) =>
    softTissue[d] ? deconvolveMedian(m, tempo) : rising(deconvolveMedian(m, tempo)),
  );
  const mean: CurveTable[] = plain.map((m) => Float64Array.from(m));
  longitudinalAt.forEach((d, a) => {
    mean[d] = longitudinalCurve(
      longitudinal.mean[curves.sex].slice(a * k, (a + 1) * k),
      longitudinal.knots,
      tempo.centre,
      plain[d],
    );
  });
  /** Sitting height is what stature has over the legs: known for years wherever both are. */
  const [whole, legs] = (['stature', 'leg_length'] as const).map((id) => longitudinal.measures.indexOf(id));
  const isTrunk = (d: number) => measures[d] === 'sitting_height' && whole >= 0 && legs >= 0;
  const trunk = (d: number): CurveTable =>
    plain[d].map((v, i) => {
      const from = Math.max(i, FIRST_LEGS);
      return (v * (mean[longitudinalAt[whole]][from] - mean[longitudinalAt[legs]][from])) / plain[d][from];
    });
  const loadings = measures.map((_, d) => regress(correlation, d, longitudinalAt));
  // SDs of the longitudinal coefficients, model scale.
  const longitudinalSd = longitudinalAt.map((_, a) =>
    Float64Array.from({ length: k }, (_, i) => Math.sqrt(longitudinal.covariance[a * k + i][a * k + i])),
  );
  const tempoEffect = new Float64Array(D * k);
  const intensityEffect = new Float64Array(D * k);
  /** Per measure what one unit of each longitudinal deviation adds to its own, and its own SD, both per coefficient. */
  const weight = measures.map(() => longitudinalAt.map(() => new Float64Array(k)));
  const sd = measures.map((_, d) => {
    const shift = longitudinalAt.reduce(
      (sum, at, b) => sum + loadings[d][b] * standsOff(mean[at], plain[at], curves.sd[at]),
      0,
    );
    if (isTrunk(d)) mean[d] = trunk(d);
    else if (!longitudinalAt.includes(d)) mean[d] = mean[d].map((v, i) => v + shift * curves.sd[d][i]);
    return Float64Array.from({ length: k }, (_, i) => {
      const total = readTable(curves.sd[d], x[i]) ** 2;
      const timing = tempoVariance((at) => readTable(mean[d], at), x[i], tempo);
      const s = Math.sqrt(Math.max(0.5 * total, total - timing));
      for (let b = 0; b < A; b++) {
        const per = longitudinalAt[b] === d ? 1 : (loadings[d][b] * s) / longitudinalSd[b][i];
        const w = isTrunk(d) ? Number(b === whole) - Number(b === legs) : per;
        weight[d][b][i] = w;
        tempoEffect[d * k + i] += w * longitudinal.tempoEffect[curves.sex][b * k + i];
        intensityEffect[d * k + i] += w * longitudinal.intensityEffect[curves.sex][b * k + i];
      }
      return isTrunk(d) ? TRUNK_OWN * s : s;
    });
  });
  const n = D * k;
  const covariance = new Float64Array(n * n);
  for (let d = 0; d < D; d++)
    for (let e = 0; e <= d; e++) {
      const own = ownCorrelation(correlation, loadings, longitudinalAt, d, e) * settings.widen ** 2;
      const life = softTissue[d] || softTissue[e] ? settings.ownSizeShareSoftTissue : settings.ownSizeShare;
      for (let i = 0; i < k; i++)
        for (let j = 0; j < k; j++) {
          let v = 0;
          for (let b = 0; b < A; b++)
            for (let c = 0; c < A; c++)
              if (weight[d][b][i] !== 0 && weight[e][c][j] !== 0)
                v += weight[d][b][i] * weight[e][c][j] * longitudinal.covariance[b * k + i][c * k + j];
          const distance = spline.abscissae[i] - spline.abscissae[j];
          const lasting = life + (1 - life) * maternThreeHalves(distance, settings.ownLength);
          v += own * lasting * sd[d][i] * sd[e][j];
          covariance[(d * k + i) * n + e * k + j] = v;
          covariance[(e * k + j) * n + d * k + i] = v;
        }
    }
  const legShare = longitudinal.residualSd[legs] / readTable(curves.sd[longitudinalAt[legs]], tempo.centre);
  const others = measures.map((_, d) => d).filter((d) => !isTrunk(d));
  const residualSd = Float64Array.from(measures, (_, d) => {
    const a = longitudinalAt.indexOf(d);
    return a >= 0
      ? longitudinal.residualSd[a]
      : settings.widen * legShare * readTable(curves.sd[d], tempo.centre);
  });
  // Between longitudinal measures as the estimate had it, so that fit and forecast have one likelihood; else in proportion to size.
  const shared = (d: number, e: number) => {
    const [a, b] = [longitudinalAt.indexOf(d), longitudinalAt.indexOf(e)];
    if (a >= 0 && b >= 0) return longitudinal.residualCorrelation[a][b];
    return d === e ? 1 : correlation[d][e] * residualSharing;
  };
  const residualCorrelation = measures.map((_, d) => Float64Array.from(measures, (_, e) => shared(d, e)));
  const trunkAt = measures.findIndex((_, d) => isTrunk(d));
  if (trunkAt >= 0) {
    const [up, down] = [longitudinalAt[whole], longitudinalAt[legs]];
    const withTrunk = (e: number) => residualSd[up] * shared(up, e) - residualSd[down] * shared(down, e);
    const variance = residualSd[up] * withTrunk(up) - residualSd[down] * withTrunk(down);
    residualSd[trunkAt] = Math.sqrt(variance + TRUNK_OWN_RESIDUAL_MM ** 2);
    for (const e of others)
      residualCorrelation[e][trunkAt] = residualCorrelation[trunkAt][e] = withTrunk(e) / residualSd[trunkAt];
  }
  return { k, mean, tempoEffect, intensityEffect, covariance, residualSd, residualCorrelation };
}

/**
 * A trunk's own SD against what the survey leaves over: 3 mm for how differently the three lengths are taken. In the
 * survey stature and legs tell nine tenths of a sitting height; the rest is its readings' errors.
 */
const TRUNK_OWN = 0.3;
const TRUNK_OWN_RESIDUAL_MM = 1;

/** Ages at which two mean curves are compared: between infancy and the end of growth. */
const FIRST_COMPARED = tableIndex(logAge(5));
/** From here the followed children's legs were measured; before, stature less a borrowed leg curve has bumps of its own. */
const FIRST_LEGS = tableIndex(logAge(8));
const LAST_COMPARED = tableIndex(logAge(18));

/**
 * By how many SD one mean curve stands off another on the average of childhood. Their difference at each single age
 * must not be passed on: it is mostly timing and noise, and moved boys' trunk spurt by a year.
 */
function standsOff(mean: CurveTable, plain: CurveTable, sd: CurveTable): number {
  let sum = 0;
  for (let i = FIRST_COMPARED; i <= LAST_COMPARED; i++) sum += (mean[i] - plain[i]) / sd[i];
  return sum / (LAST_COMPARED + 1 - FIRST_COMPARED);
}

/** The spline's curve where it has knots; before them the reference's shape, scaled to meet it. */
function longitudinalCurve(
  coefficients: number[],
  knots: readonly number[],
  centre: number,
  reference: CurveTable,
): CurveTable {
  const spline = clampedBSpline(knots);
  const value = new Float64Array(4);
  const at = (u: number) => {
    const first = spline.basisValues(u, value, 0);
    return value.reduce((s, v, r) => s + v * coefficients[first + r], 0);
  };
  const start = centre + knots[0];
  const gap = at(knots[0]) - readTable(reference, start);
  const slopeFade = (x: number) => Math.exp((x - start) / 0.5);
  return Float64Array.from(reference, (v, i) => {
    const x = tableLogAge(i);
    return x >= start ? at(x - centre) : v + gap * slopeFade(x);
  });
}

/** Weights of the longitudinal z-scores in the best linear guess of measure d's; a longitudinal measure is itself. */
function regress(
  c: readonly (readonly number[])[],
  d: number,
  longitudinal: readonly number[],
): Float64Array {
  const n = longitudinal.length;
  const own = longitudinal.indexOf(d);
  if (own >= 0) return Float64Array.from({ length: n }, (_, a) => (a === own ? 1 : 0));
  const m = Float64Array.from(
    { length: n * n },
    (_, i) => c[longitudinal[Math.floor(i / n)]][longitudinal[i % n]],
  );
  const b = Float64Array.from(longitudinal, (a) => c[d][a]);
  denseCholesky(m, n);
  denseForward(m, n, b);
  denseBackward(m, n, b);
  return b;
}

/** What is left of the correlation of d and e once the longitudinal ones are known; zero for those. */
function ownCorrelation(
  c: readonly (readonly number[])[],
  loadings: readonly Float64Array[],
  longitudinal: readonly number[],
  d: number,
  e: number,
): number {
  if (longitudinal.includes(d) || longitudinal.includes(e)) return 0;
  let v = c[d][e];
  longitudinal.forEach((a, i) => {
    v -= loadings[d][i] * c[a][e];
  });
  return v;
}
