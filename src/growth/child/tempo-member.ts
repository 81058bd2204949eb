import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import { maternThreeHalves } from '../../statistics/matern-three-halves.js';
import { readTable } from '../population/curve-table.js';
import { ageOfLogAge } from '../population/growth-age.js';
import { growthClock } from '../population/growth-clock.js';
import type { SexCurves } from '../population/sex-curves.js';
import type { TempoPopulation } from '../population/tempo-population.js';
import type { TempoSettings } from '../population/tempo-warp.js';
import type { ChildPrior } from './child-prior.js';
import type { GridPoint, Member, Placed } from './member.js';
import type { Points } from './points.js';
import { maturityLogAge } from './unsmear.js';

export interface TempoMemberSettings {
  readonly wanderYears: number;
  readonly wanderSharing: number;
  readonly sideWandering: number;
  /** SD at birth, z, of an infant's own wandering, gone by `infantUntilYears`; its length scale, log-age. */
  readonly infantSd: number;
  readonly infantUntilYears: number;
  readonly infantLength: number;
}

interface TempoPlaced extends Placed {
  readonly first: Int32Array;
  readonly value: Float64Array;
}

/** Size, tempo and intensity with a residual: see design note in the model card. */
export function tempoMember(
  curves: SexCurves,
  correlation: readonly (readonly number[])[],
  population: TempoPopulation,
  knots: readonly number[],
  tempo: TempoSettings,
  grid: readonly GridPoint[],
  settings: TempoMemberSettings,
  logWeight: (x: number) => number,
): Member {
  const spline = clampedBSpline(knots);
  const { k, covariance } = population;
  const width = k * curves.median.length;
  const start = tempo.centre + knots[0];
  const endYears = ageOfLogAge(curves.growthEnd) + 0.5;
  return {
    name: 'tempo',
    curves,
    grid,
    tempoYears: (b) => ageOfLogAge(tempo.centre + b * tempo.tempoSd) - ageOfLogAge(tempo.centre),
    peakVelocityAgeYears: ageOfLogAge(tempo.centre),
    maturity: (x, at) => maturityLogAge(x, at.tempo, at.intensity, tempo),
    logWeight,
    place(points: Points, prior: ChildPrior, at: GridPoint): TempoPlaced {
      const { n } = points;
      const mean = new Float64Array(n);
      const scale = new Float64Array(n);
      const maturity = new Float64Array(n);
      const first = new Int32Array(n);
      const value = new Float64Array(4 * n);
      for (let i = 0; i < n; i++) {
        const d = points.measure[i];
        const m = maturityLogAge(points.x[i], at.tempo, at.intensity, tempo);
        maturity[i] = m;
        scale[i] = readTable(curves.sd[d], m);
        const from = d * k + spline.taps(m - tempo.centre, value, 4 * i);
        first[i] = from;
        // Before the first knot a deviation shrinks with the spread of that age.
        const young = m < start ? scale[i] / readTable(curves.sd[d], start) : 1;
        let effect = 0;
        for (let r = 0; r < 4; r++) {
          value[4 * i + r] *= young;
          effect +=
            value[4 * i + r] *
            (at.tempo * population.tempoEffect[from + r] +
              at.intensity * population.intensityEffect[from + r]);
        }
        const side = points.side[i];
        const lean = side < 0 ? prior.left[d] : side > 0 ? prior.right[d] : 0;
        mean[i] = readTable(population.mean[d], m) + effect + scale[i] * (prior.shift[d] + lean);
      }
      return { n, points, mean, scale, maturity, first, value };
    },
    fixedCovariance(a, b, prior) {
      const out = new Float64Array(a.n * b.n);
      const [pa, pb] = [a, b].map((p) => ({
        years: Float64Array.from(p.x, (x) => growthClock(ageOfLogAge(x), endYears, 0.5)),
        clock: Float64Array.from(p.x, (x) => growthClock(x, curves.growthEnd)),
        wander: Float64Array.from(p.x, (x, i) =>
          Math.min(0.25, population.wanderSd[p.measure[i]] / readTable(curves.sd[p.measure[i]], x)),
        ),
        infant: Float64Array.from(p.x, (x) => {
          const f = Math.min(1, Math.max(0, 1 - ageOfLogAge(x) / settings.infantUntilYears));
          return settings.infantSd * f * f * (3 - 2 * f);
        }),
      }));
      for (let i = 0; i < a.n; i++) {
        const d = a.measure[i];
        for (let j = 0; j < b.n; j++) {
          const e = b.measure[j];
          const c = correlation[d][e];
          const sharing = d === e ? 1 : c * settings.wanderSharing;
          const wandering = maternThreeHalves(pa.years[i] - pb.years[j], settings.wanderYears);
          const k = maternThreeHalves(pa.clock[i] - pb.clock[j], settings.infantLength);
          let v = pa.wander[i] * pb.wander[j] * population.wanderCorrelation[d][e] * wandering;
          v += pa.infant[i] * pb.infant[j] * sharing * k;
          v += (prior.spread[d] * prior.spread[e] - 1) * c;
          v += EXTRA_RESIDUAL * (prior.residual - 1) * sharing * k;
          if (d === e && a.side[i] !== 0 && a.side[i] === b.side[j])
            v += prior.sideSd[d] ** 2 * (1 - settings.sideWandering + settings.sideWandering * k);
          out[i * b.n + j] = v;
        }
      }
      return out;
    },
    covariance(a, b, fixed, _prior, out) {
      const p = a as TempoPlaced;
      const q = b as TempoPlaced;
      const v = p.value;
      const u = q.value;
      for (let i = 0; i < p.n; i++) {
        const end = a === b ? i + 1 : q.n;
        const r = 4 * i;
        for (let j = 0; j < end; j++) {
          const c = 4 * j;
          let row = p.first[i] * width + q.first[j];
          let sum = p.scale[i] * q.scale[j] * fixed[i * q.n + j];
          for (let k = 0; k < 4; k++, row += width)
            sum +=
              v[r + k] *
              (u[c] * covariance[row] +
                u[c + 1] * covariance[row + 1] +
                u[c + 2] * covariance[row + 2] +
                u[c + 3] * covariance[row + 3]);
          out[i * q.n + j] = sum;
        }
      }
    },
  };
}
/** Variance, z, that each unit of a condition's extra residual variance brings. */
const EXTRA_RESIDUAL = 0.15;
