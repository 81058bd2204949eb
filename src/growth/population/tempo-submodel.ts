import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import { floatsOf } from '../../statistics/floats-of.js';
import { betweenAges } from './between-ages.js';
import { readTable } from './curve-table.js';
import { maturityLogAge } from './deconvolve-median.js';
import { ageOfLogAge } from './growth-age.js';
import { growthClock } from './growth-clock.js';
import { type Points, sideShift } from './points.js';
import { scaledCovariance, scaledPull } from './scaled-parts.js';
import type { SexCurves } from './sex-curves.js';
import { sideCovariance } from './side-covariance.js';
import { splinePart, splinePull, type TempoPlaced } from './spline-part.js';
import type { ChildPrior, GridPoint, Submodel } from './submodel.js';
import type { TempoPopulation } from './tempo-population.js';
import { stretchOf, type TempoSettings } from './tempo-warp.js';

export interface TempoSubmodelSettings {
  readonly residualYears: number;
  readonly residualSharing: number;
  readonly sideResidual: number;
  /** SD at birth, z, of an infant's own residual, gone by `infantUntilYears`; its length scale, log-age. */
  readonly infantSd: number;
  readonly infantUntilYears: number;
  readonly infantLength: number;
}

/** Size, tempo and intensity with a residual: see design note in the model card. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: tables worked out once and the questions put to them
export function tempoSubmodel(
  curves: SexCurves,
  correlation: readonly (readonly number[])[],
  population: TempoPopulation,
  knots: readonly number[],
  tempo: TempoSettings,
  grid: readonly GridPoint[],
  settings: TempoSubmodelSettings,
  logWeight: (x: number) => number,
): Submodel {
  const spline = clampedBSpline(knots);
  const { k, covariance } = population;
  const width = k * curves.median.length;
  const start = tempo.centre + knots[0];
  const startSd = curves.sd.map((table) => readTable(table, start));
  const endYears = ageOfLogAge(curves.growthEnd) + 0.5;
  return {
    name: 'tempo',
    pool: 'tempo',
    seeksTempo: true,
    curves,
    grid,
    tempoYears: (b) => ageOfLogAge(tempo.centre + b * tempo.tempoSd) - ageOfLogAge(tempo.centre),
    peakVelocityAgeYears: ageOfLogAge(tempo.centre),
    maturity: (x, at) => maturityLogAge(x, at.tempo, at.intensity, tempo),
    logWeight,
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: dear loops over ages, curves and splines, written out for speed
    place(points: Points, prior: ChildPrior, at: GridPoint, again?: TempoPlaced): TempoPlaced {
      const { n, ages, curveMeasure, curveAge, curve } = points;
      const stretch = stretchOf(at.intensity, tempo);
      const { tap, piece, position, spread, middle } = roomFor(Math.max(ages.length, curveMeasure.length));
      for (let a = 0; a < ages.length; a++) {
        position[a] = maturityLogAge(ages[a], at.tempo, at.intensity, tempo, stretch);
        piece[a] = spline.basisValues(position[a] - tempo.centre, tap, 4 * a);
      }
      const count = curveMeasure.length;
      const first = again?.first ?? new Int32Array(count);
      const value = again?.value ?? new Float64Array(4 * count);
      for (let c = 0; c < count; c++) {
        const d = curveMeasure[c];
        const a = curveAge[c];
        const m = position[a];
        const sd = readTable(curves.sd[d], m);
        const from = d * k + piece[a];
        // Before the first knot a deviation shrinks with the spread of that age.
        const young = m < start ? sd / startSd[d] : 1;
        let effect = 0;
        for (let r = 0; r < 4; r++) {
          const v = tap[4 * a + r] * young;
          value[4 * c + r] = v;
          effect +=
            v *
            (at.tempo * population.tempoEffect[from + r] +
              at.intensity * population.intensityEffect[from + r]);
        }
        first[c] = from;
        spread[c] = sd;
        middle[c] = readTable(population.mean[d], m) + effect;
      }
      const mean = again?.mean ?? new Float64Array(n);
      const scale = again?.scale ?? new Float64Array(n);
      for (let i = 0; i < n; i++) {
        const d = points.measure[i];
        scale[i] = spread[curve[i]];
        const shift = scale[i] * sideShift(points.side[i], prior.left[d], prior.right[d]);
        mean[i] = points.differences ? shift : middle[curve[i]] + scale[i] * prior.shift[d] + shift;
      }
      return { n, points, mean, scale, first, value };
    },
    // biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the dear loop over pairs of points, written out for speed
    fixedCovariance(a, b, prior) {
      const correlationByAge = betweenAges(
        a,
        b,
        (x) => growthClock(ageOfLogAge(x), endYears, 0.5),
        settings.residualYears,
      );
      const lasting = betweenAges(a, b, (x) => growthClock(x, curves.growthEnd), settings.infantLength);
      const of = (p: Points) => ({
        residual: floatsOf(p.curveMeasure, (d, c) =>
          Math.min(0.25, population.residualSd[d] / readTable(curves.sd[d], p.ages[p.curveAge[c]])),
        ),
        infant: floatsOf(p.curveAge, (age) => {
          const f = Math.min(1, Math.max(0, 1 - ageOfLogAge(p.ages[age]) / settings.infantUntilYears));
          return settings.infantSd * f * f * (3 - 2 * f);
        }),
      });
      const pa = of(a);
      const pb = a === b ? pa : of(b);
      const extra = EXTRA_RESIDUAL * (prior.residual - 1);
      const out = new Float64Array(a.n * b.n);
      const { spread } = prior;
      const bySide = sideCovariance(a, b, prior, curves, lasting, settings.sideResidual);
      for (let i = 0; i < a.n; i++) {
        const d = a.measure[i];
        const ci = a.curve[i];
        const row = a.curveAge[ci] * b.ages.length;
        const [alike, alikeResidual] = [correlation[d], population.residualCorrelation[d]];
        const [residual, infant] = [pa.residual[ci], pa.infant[ci]];
        const end = a === b ? i + 1 : b.n;
        for (let j = 0; j < end; j++) {
          const e = b.measure[j];
          const cj = b.curve[j];
          const k = lasting[row + b.curveAge[cj]];
          let v = 0;
          if (!a.differences) {
            const sharing = d === e ? 1 : alike[e] * settings.residualSharing;
            v =
              residual * pb.residual[cj] * alikeResidual[e] * correlationByAge[row + b.curveAge[cj]] +
              (infant * pb.infant[cj] + extra) * sharing * k +
              (spread[d] * spread[e] - 1) * alike[e];
          }
          if (d === e) v += bySide(i, j);
          out[i * b.n + j] = v;
        }
      }
      return out;
    },
    covariance(a, b, fixed, prior, out) {
      const p = a as TempoPlaced;
      const q = b as TempoPlaced;
      if (p.points.differences) return scaledCovariance(p, q, fixed, prior, out);
      const between = splinePart(p, q, covariance, width);
      const rows = p.points.curve;
      const columns = q.points.curve;
      const wide = q.first.length;
      for (let i = 0; i < p.n; i++) {
        const end = a === b ? i + 1 : q.n;
        const row = rows[i] * wide;
        const to = i * q.n;
        const s = p.scale[i];
        for (let j = 0; j < end; j++)
          out[to + j] = between[row + columns[j]] + s * q.scale[j] * fixed[to + j];
      }
    },
    pull(a, alpha, b, fixed, out) {
      scaledPull(a, alpha, b, fixed, out);
      if (!a.points.differences)
        splinePull(a as TempoPlaced, alpha, b as TempoPlaced, covariance, width, out);
    },
  };
}

/** What `place` works with and does not keep. */
let room = makeRoom(64);
function makeRoom(n: number) {
  const [position, spread, middle] = [0, 1, 2].map(() => new Float64Array(n));
  return { n, tap: new Float64Array(4 * n), piece: new Int32Array(n), position, spread, middle };
}
function roomFor(n: number): typeof room {
  if (room.n < n) room = makeRoom(2 * n);
  return room;
}

/** Variance, z, that each unit of a condition's extra residual variance brings. */
const EXTRA_RESIDUAL = 0.15;
