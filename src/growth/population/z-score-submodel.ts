import { betweenAges } from './between-ages.js';
import { readTable } from './curve-table.js';
import { growthClock } from './growth-clock.js';
import { type Points, sideShift } from './points.js';
import { scaledCovariance, scaledPull } from './scaled-parts.js';
import type { SexCurves } from './sex-curves.js';
import { sideCovariance } from './side-covariance.js';
import type { ChildPrior, GridPoint, Placed, Submodel } from './submodel.js';

export interface ZScoreSettings {
  /** Share of a z-score's variance that stays with the child for life. */
  readonly sizeShare: number;
  /** Length scale of the remaining residual process, log-age. */
  readonly lengthScale: number;
  /** How far the residual process is shared between measures, 0..1 of the correlation of size. */
  readonly residualSharing: number;
  /** Share of a side's own deviation that is residual, not lasting. */
  readonly sideResidual: number;
  /** SD of a head's residual against that of body length, which it is taken from. */
  readonly headWiden: number;
}

/**
 * Staying near the own centile: every measure's z-score is a lifelong level plus a Matern 3/2 residual process, both
 * correlated over measures. No tempo: one grid point.
 */
export function zScoreSubmodel(
  curves: SexCurves,
  correlation: readonly (readonly number[])[],
  isHead: readonly boolean[],
  settings: ZScoreSettings,
  logWeight: (x: number) => number,
): Submodel {
  const shared = settings.residualSharing;
  const widen = isHead.map((head) => (head ? settings.headWiden : 1));
  return {
    name: 'z-score',
    pool: 'z-score',
    seeksTempo: false,
    curves,
    grid: [{ tempo: 0, intensity: 0, logPrior: 0 }],
    tempoYears: () => 0,
    maturity: (x) => x,
    peakVelocityAgeYears: curves.peakVelocityAgeYears,
    logWeight,
    place(points: Points, prior: ChildPrior, _at: GridPoint, again?: Placed): Placed {
      const { n } = points;
      const mean = again?.mean ?? new Float64Array(n);
      const scale = again?.scale ?? new Float64Array(n);
      for (let i = 0; i < n; i++) {
        const d = points.measure[i];
        const x = points.x[i];
        scale[i] = readTable(curves.sd[d], x);
        const shift = scale[i] * sideShift(points.side[i], prior.left[d], prior.right[d]);
        mean[i] = points.differences
          ? shift
          : readTable(curves.median[d], x) + scale[i] * prior.shift[d] + shift;
      }
      return { n, points, mean, scale };
    },
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the dear loop over pairs of points, written out for speed
    fixedCovariance(a, b, prior) {
      const out = new Float64Array(a.n * b.n);
      const near = betweenAges(a, b, (x) => growthClock(x, curves.growthEnd), settings.lengthScale);
      const bySide = sideCovariance(a, b, prior, curves, near, settings.sideResidual);
      const residual = (1 - settings.sizeShare) * prior.residual;
      for (let i = 0; i < a.n; i++) {
        const d = a.measure[i];
        const row = a.curveAge[a.curve[i]] * b.ages.length;
        for (let j = 0; j < (a === b ? i + 1 : b.n); j++) {
          const e = b.measure[j];
          const c = correlation[d][e];
          const k = near[row + b.curveAge[b.curve[j]]];
          let v = 0;
          if (!a.differences) {
            v = settings.sizeShare * c * prior.spread[d] * prior.spread[e];
            v += residual * widen[d] * widen[e] * (d === e ? 1 : c * shared) * k;
          }
          if (d === e) v += bySide(i, j);
          out[i * b.n + j] = v;
        }
      }
      return out;
    },
    covariance: scaledCovariance,
    pull: scaledPull,
  };
}
