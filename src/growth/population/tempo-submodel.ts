import { clampedBSpline } from '../../statistics/clamped-b-spline.js';
import { betweenAges } from './between-ages.js';
import { readTable } from './curve-table.js';
import { maturityLogAge } from './deconvolve-median.js';
import { ageOfLogAge } from './growth-age.js';
import { growthClock } from './growth-clock.js';
import type { Points } from './points.js';
import type { SexCurves } from './sex-curves.js';
import type { ChildPrior, GridPoint, Placed, Submodel } from './submodel.js';
import type { TempoPopulation } from './tempo-population.js';
import { stretchOf, type TempoSettings } from './tempo-warp.js';

export interface TempoSubmodelSettings {
  readonly wanderYears: number;
  readonly wanderSharing: number;
  readonly sideWandering: number;
  /** SD at birth, z, of an infant's own wandering, gone by `infantUntilYears`; its length scale, log-age. */
  readonly infantSd: number;
  readonly infantUntilYears: number;
  readonly infantLength: number;
}

/** Per curve of the points: the first of its four spline functions, and their values. */
interface TempoPlaced extends Placed {
  readonly first: Int32Array;
  readonly value: Float64Array;
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
        const side = points.side[i];
        const sideShift = side < 0 ? prior.left[d] : side > 0 ? prior.right[d] : 0;
        scale[i] = spread[curve[i]];
        mean[i] = middle[curve[i]] + scale[i] * (prior.shift[d] + sideShift);
      }
      return { n, points, mean, scale, first, value };
    },
    fixedCovariance(a, b, prior) {
      const wandering = betweenAges(
        a,
        b,
        (x) => growthClock(ageOfLogAge(x), endYears, 0.5),
        settings.wanderYears,
      );
      const lasting = betweenAges(a, b, (x) => growthClock(x, curves.growthEnd), settings.infantLength);
      const [pa, pb] = [a, b].map((p) => ({
        wander: Float64Array.from(p.curveMeasure, (d, c) =>
          Math.min(0.25, population.wanderSd[d] / readTable(curves.sd[d], p.ages[p.curveAge[c]])),
        ),
        infant: Float64Array.from(p.curveAge, (age) => {
          const f = Math.min(1, Math.max(0, 1 - ageOfLogAge(p.ages[age]) / settings.infantUntilYears));
          return settings.infantSd * f * f * (3 - 2 * f);
        }),
      }));
      const extra = EXTRA_RESIDUAL * (prior.residual - 1);
      const out = new Float64Array(a.n * b.n);
      for (let i = 0; i < a.n; i++) {
        const d = a.measure[i];
        const ci = a.curve[i];
        const row = a.curveAge[ci] * b.ages.length;
        for (let j = 0; j < b.n; j++) {
          const e = b.measure[j];
          const cj = b.curve[j];
          const c = correlation[d][e];
          const sharing = d === e ? 1 : c * settings.wanderSharing;
          const k = lasting[row + b.curveAge[cj]];
          let v =
            pa.wander[ci] *
            pb.wander[cj] *
            population.wanderCorrelation[d][e] *
            wandering[row + b.curveAge[cj]];
          v += (pa.infant[ci] * pb.infant[cj] + extra) * sharing * k;
          v += (prior.spread[d] * prior.spread[e] - 1) * c;
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
  };
}

/** Covariance of the spline parts, curve by curve, in an array that the next call uses again. */
function splinePart(p: TempoPlaced, q: TempoPlaced, covariance: Float64Array, width: number): Float64Array {
  const [rows, columns] = [p.first.length, q.first.length];
  if (between.length < rows * columns) between = new Float64Array(2 * rows * columns);
  const { value: v } = p;
  const { value: u } = q;
  const symmetric = p === q;
  for (let i = 0; i < rows; i++) {
    const r = 4 * i;
    const v0 = v[r];
    const v1 = v[r + 1];
    const v2 = v[r + 2];
    const v3 = v[r + 3];
    const from = p.first[i] * width;
    const end = symmetric ? i + 1 : columns;
    for (let j = 0; j < end; j++) {
      const c = 4 * j;
      const at = from + q.first[j];
      const b = at + width;
      const d = b + width;
      const e = d + width;
      const sum =
        u[c] * (v0 * covariance[at] + v1 * covariance[b] + v2 * covariance[d] + v3 * covariance[e]) +
        u[c + 1] *
          (v0 * covariance[at + 1] +
            v1 * covariance[b + 1] +
            v2 * covariance[d + 1] +
            v3 * covariance[e + 1]) +
        u[c + 2] *
          (v0 * covariance[at + 2] +
            v1 * covariance[b + 2] +
            v2 * covariance[d + 2] +
            v3 * covariance[e + 2]) +
        u[c + 3] *
          (v0 * covariance[at + 3] +
            v1 * covariance[b + 3] +
            v2 * covariance[d + 3] +
            v3 * covariance[e + 3]);
      between[i * columns + j] = sum;
      if (symmetric) between[j * columns + i] = sum;
    }
  }
  return between;
}
let between = new Float64Array(4096);

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
