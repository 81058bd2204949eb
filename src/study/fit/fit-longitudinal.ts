import { logAge } from '../../growth/population/growth-age.js';
import type { LongitudinalPopulation } from '../../growth/population/longitudinal-population.js';
import { quadratureGrid } from '../../growth/population/quadrature-grid.js';
import { tempoWarp } from '../../growth/population/tempo-warp.js';
import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import {
  denseBackward,
  denseCholesky,
  denseForward,
  denseLogDeterminant,
} from '../../statistics/dense-cholesky.js';
import { groupBy } from '../../statistics/group-by.js';
import { maternThreeHalves } from '../../statistics/matern-three-halves.js';
import type { FollowedChild, FollowedRow } from './followed-records.js';

const SEXES = ['male', 'female'] as const;
/** How many children the starting SDs of tempo and intensity count for. */
const SD_CHILDREN = 10;

export interface LongitudinalFitSettings {
  readonly iterations: number;
  readonly tempoPoints: number;
  readonly intensityPoints: number;
  readonly errorSd: (row: FollowedRow) => number;
  /** How many children the starting covariance counts for. */
  readonly priorChildren: number;
  /** How many children 'no effect' of tempo and intensity on size counts for. */
  readonly effectRidge: number;
  readonly centreYears: Readonly<Record<'male' | 'female', number>>;
  readonly onIteration?: (iteration: number, logLikelihood: number) => void;
}

/**
 * Expectation-maximisation for the tempo population (Dempster, Laird & Rubin 1977): tempo and intensity on a
 * quadrature grid, a child's spline coefficients exactly Gaussian given them. The starting population gives
 * knots, warp, residual process and the covariance that the estimate is shrunk to (inverse-Wishart).
 */
export function fitLongitudinal(
  children: readonly FollowedChild[],
  start: LongitudinalPopulation,
  settings: LongitudinalFitSettings,
): LongitudinalPopulation {
  const spline = clampedBSpline(start.knots);
  const p = spline.size * start.measures.length;
  let now = start;
  for (let iteration = 0; iteration < settings.iterations; iteration++) {
    const spread = new Float64Array(p * p);
    const next = {
      mean: { male: [] as number[], female: [] as number[] },
      tempoEffect: { male: [] as number[], female: [] as number[] },
      intensityEffect: { male: [] as number[], female: [] as number[] },
      tempoSd: { male: 0, female: 0 },
      intensitySd: { male: 0, female: 0 },
    };
    let logLikelihood = 0;
    for (const sex of SEXES) {
      const m = momentsOf(
        children.filter((c) => c.sex === sex),
        sex,
        now,
        settings,
      );
      logLikelihood += m.logLikelihood;
      const theta = effects(m, p, settings.effectRidge);
      next.mean[sex] = [...theta.subarray(0, p)];
      next.tempoEffect[sex] = [...theta.subarray(p, 2 * p)];
      next.intensityEffect[sex] = [...theta.subarray(2 * p)];
      addScatter(spread, m, theta, p);
      const sdOf = (squares: number, own: number, begun: number) =>
        Math.sqrt((squares * own ** 2 + SD_CHILDREN * begun ** 2) / (m.n + SD_CHILDREN));
      next.tempoSd[sex] = sdOf(m.xx[4], now.tempoSd[sex], start.tempoSd[sex]);
      next.intensitySd[sex] = sdOf(m.xx[8], now.intensitySd[sex], start.intensitySd[sex]);
    }
    const total = children.length + settings.priorChildren;
    const covariance = start.covariance.map((row, i) =>
      row.map((v, j) => ((spread[i * p + j] + spread[j * p + i]) / 2 + settings.priorChildren * v) / total),
    );
    now = { ...now, ...next, covariance };
    settings.onIteration?.(iteration, logLikelihood);
  }
  return now;
}

/** Scatter about the new means: Scc - theta' Sxc - Sxc' theta + theta' Sxx theta. */
function addScatter(spread: Float64Array, m: Moments, theta: Float64Array, p: number): void {
  for (let i = 0; i < p; i++)
    for (let j = 0; j < p; j++) {
      let v = m.cc[i * p + j];
      for (let a = 0; a < 3; a++) {
        v -= theta[a * p + i] * m.xc[a * p + j] + m.xc[a * p + i] * theta[a * p + j];
        for (let b = 0; b < 3; b++) v += theta[a * p + i] * m.xx[a * 3 + b] * theta[b * p + j];
      }
      spread[i * p + j] += v;
    }
}

interface Moments {
  n: number;
  logLikelihood: number;
  /** Sums over children of E[x x'], E[x c'], E[c c'] with x = (1, tempo, intensity), c the coefficients. */
  xx: Float64Array;
  xc: Float64Array;
  cc: Float64Array;
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: sums over grid, children and pairs in one pass: it is the dear loop of a fit
function momentsOf(
  children: readonly FollowedChild[],
  sex: 'male' | 'female',
  now: LongitudinalPopulation,
  settings: LongitudinalFitSettings,
): Moments {
  const spline = clampedBSpline(now.knots);
  const k = spline.size;
  const p = k * now.measures.length;
  const grid = quadratureGrid(settings.tempoPoints, settings.intensityPoints);
  const warp = {
    centre: logAge(settings.centreYears[sex]),
    tempoSd: now.tempoSd[sex],
    intensitySd: now.intensitySd[sex],
    warpFrom: logAge(now.warpFromYears),
    warpFull: logAge(now.warpFullYears),
  };
  const sigma = Float64Array.from(now.covariance.flat());
  const m: Moments = {
    n: children.length,
    logLikelihood: 0,
    xx: new Float64Array(9),
    xc: new Float64Array(3 * p),
    cc: new Float64Array(p * p),
  };
  // Children seen at the same ages share every matrix.
  const patterns = groupBy(children, (c) => c.rows.map((r) => `${r.measure}${r.ageYears}`).join());
  for (const group of patterns.values()) {
    const rows = group[0].rows;
    const n = rows.length;
    const base = new Float64Array(n * n);
    const of = rows.map((r) => now.measures.indexOf(r.measure));
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        base[i * n + j] =
          now.residualSd[of[i]] *
          now.residualSd[of[j]] *
          now.residualCorrelation[of[i]][of[j]] *
          maternThreeHalves(rows[i].ageYears - rows[j].ageYears, now.residualYears);
        if (i === j) base[i * n + i] += settings.errorSd(rows[i]) ** 2;
      }
    const log = group.map(() => new Float64Array(grid.length));
    const found = group.map(() => new Float64Array(grid.length * p));
    const left: Float64Array[] = [];
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: sums over grid, children and pairs in one pass: it is the dear loop of the fit
    grid.forEach((g, gi) => {
      const first = new Int32Array(n);
      const value = new Float64Array(4 * n);
      const coefficients = now.mean[sex].map(
        (v, i) => v + g.tempo * now.tempoEffect[sex][i] + g.intensity * now.intensityEffect[sex][i],
      );
      const mean = new Float64Array(n);
      for (let j = 0; j < n; j++) {
        const u = tempoWarp(logAge(rows[j].ageYears), g.tempo, g.intensity, warp);
        first[j] = of[j] * k + spline.basisValues(u, value, 4 * j);
        for (let r = 0; r < 4; r++) mean[j] += value[4 * j + r] * coefficients[first[j] + r];
      }
      // hs: n x p, the covariance of readings with coefficients.
      const hs = new Float64Array(n * p);
      for (let j = 0; j < n; j++)
        for (let r = 0; r < 4; r++) {
          const f = value[4 * j + r];
          const from = (first[j] + r) * p;
          for (let c = 0; c < p; c++) hs[j * p + c] += f * sigma[from + c];
        }
      const v = Float64Array.from(base);
      for (let i = 0; i < n; i++)
        for (let j = 0; j <= i; j++)
          for (let r = 0; r < 4; r++) v[i * n + j] += value[4 * j + r] * hs[i * p + first[j] + r];
      if (!denseCholesky(v, n))
        throw new Error('the records have a covariance that is not positive definite');
      denseForward(v, n, hs, p);
      const rest = Float64Array.from(sigma);
      for (let j = 0; j < n; j++)
        for (let a = 0; a < p; a++) {
          const f = hs[j * p + a];
          for (let b = 0; b <= a; b++) rest[a * p + b] -= f * hs[j * p + b];
        }
      left.push(rest);
      const determinant = denseLogDeterminant(v, n);
      group.forEach((child, ci) => {
        const z = Float64Array.from(child.rows, (r, j) => r.value - mean[j]);
        denseForward(v, n, z);
        let square = 0;
        const c = found[ci].subarray(gi * p, (gi + 1) * p);
        c.set(coefficients);
        for (let j = 0; j < n; j++) {
          square += z[j] * z[j];
          for (let a = 0; a < p; a++) c[a] += hs[j * p + a] * z[j];
        }
        log[ci][gi] = g.logPrior - 0.5 * (square + determinant);
      });
    });
    group.forEach((_, ci) => {
      const top = Math.max(...log[ci]);
      const weight = log[ci].map((l) => Math.exp(l - top));
      const sum = weight.reduce((a, b) => a + b, 0);
      m.logLikelihood += top + Math.log(sum) - 0.5 * n * Math.log(2 * Math.PI);
      // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the other half of that loop: the moments, summed in place
      grid.forEach((g, gi) => {
        const w = weight[gi] / sum;
        if (w < 1e-9) return;
        const x = [1, g.tempo, g.intensity];
        const c = found[ci].subarray(gi * p, (gi + 1) * p);
        for (let a = 0; a < 3; a++) {
          for (let b = 0; b < 3; b++) m.xx[a * 3 + b] += w * x[a] * x[b];
          for (let j = 0; j < p; j++) m.xc[a * p + j] += w * x[a] * c[j];
        }
        for (let a = 0; a < p; a++)
          for (let b = 0; b <= a; b++) m.cc[a * p + b] += w * (c[a] * c[b] + left[gi][a * p + b]);
      });
    });
  }
  for (let a = 0; a < p; a++) for (let b = 0; b < a; b++) m.cc[b * p + a] = m.cc[a * p + b];
  return m;
}

/** Means, tempo and intensity effects (3 x p) by ridge regression of the expected coefficients. */
function effects(m: Moments, p: number, ridge: number): Float64Array {
  const xx = Float64Array.from(m.xx);
  xx[0] += 1e-9;
  xx[4] += ridge;
  xx[8] += ridge;
  const theta = new Float64Array(3 * p);
  denseCholesky(xx, 3);
  for (let j = 0; j < p; j++) {
    const column = Float64Array.of(m.xc[j], m.xc[p + j], m.xc[2 * p + j]);
    denseForward(xx, 3, column);
    denseBackward(xx, 3, column);
    for (let a = 0; a < 3; a++) theta[a * p + j] = column[a];
  }
  return theta;
}
