import { denseForward } from '../../statistics/dense-cholesky.js';
import type { GridPoint, Placed } from '../population/submodel.js';
import type { Evidence } from './trial.js';
import { lookAt, type Trial } from './trial.js';

export type Place = Pick<GridPoint, 'tempo' | 'intensity'>;

/** Log of prior x likelihood over tempo and intensity, the readings' covariance taken as it is at one place. */
export interface TempoDensity {
  at(place: Place): number;
  /** Slope, and the expected curvature with the sign turned. */
  slopes(place: Place): { t: number; i: number; tt: number; ti: number; ii: number };
}

/** How far to either side the change with tempo and intensity is taken, prior SD. */
const ASIDE = 0.25;
/** What is believed before the readings is never taken to be wider than 1 / sqrt(this), prior SD. */
const LEAST_BEND = 0.6;

/** Null: the covariance is not definite. Good until the next is asked for: they share their factor's array. */
export function densityFrom(trial: Trial, evidence: Evidence, from: Place): TempoDensity | null {
  if (factor.length < trial.fixed.length) factor = new Float64Array(2 * trial.fixed.length);
  const { common, submodel, prior } = trial;
  const { n } = common.at;
  const there = lookAt(trial, gridPoint(from), factor);
  if (!there) return null;
  const flat = there.log + sumOfSquares(there.white) / 2;
  let placed: Placed = there.placed;
  const meanAt = (tempo: number, intensity: number) => {
    placed = submodel.place(common.at, prior, gridPoint({ tempo, intensity }), placed);
    return placed.mean;
  };
  const off = there.white;
  return {
    at({ tempo, intensity }) {
      const mean = meanAt(tempo, intensity);
      for (let k = 0; k < n; k++) off[k] = common.value[k] - mean[k];
      denseForward(factor, n, off);
      return flat - sumOfSquares(off) / 2 + believed(trial, evidence, tempo, intensity);
    },
    slopes({ tempo, intensity }) {
      const columns = new Float64Array(3 * n);
      const add = (mean: Float64Array, column: number, times: number) => {
        for (let k = 0; k < n; k++) columns[3 * k + column] += times * mean[k];
      };
      add(common.value, 0, 1);
      add(meanAt(tempo, intensity), 0, -1);
      add(meanAt(tempo + ASIDE, intensity), 1, 0.5 / ASIDE);
      add(meanAt(tempo - ASIDE, intensity), 1, -0.5 / ASIDE);
      add(meanAt(tempo, intensity + ASIDE), 2, 0.5 / ASIDE);
      add(meanAt(tempo, intensity - ASIDE), 2, -0.5 / ASIDE);
      denseForward(factor, n, columns, 3);
      const sums = slopesOfBelief(trial, evidence, tempo, intensity);
      for (let k = 0; k < 3 * n; k += 3) {
        sums.t += columns[k] * columns[k + 1];
        sums.i += columns[k] * columns[k + 2];
        sums.tt += columns[k + 1] * columns[k + 1];
        sums.ti += columns[k + 1] * columns[k + 2];
        sums.ii += columns[k + 2] * columns[k + 2];
      }
      return sums;
    },
  };
}
let factor = new Float64Array(4096);

/** Log of likelihood and markers at a place, without the prior. */
export function logAt(trial: Trial, evidence: Evidence, place: Place): number {
  if (factor.length < trial.fixed.length) factor = new Float64Array(2 * trial.fixed.length);
  const look = lookAt(trial, gridPoint(place), factor);
  return look ? look.log + evidence(trial.submodel, gridPoint(place)) : Number.NEGATIVE_INFINITY;
}

const gridPoint = ({ tempo, intensity }: Place): GridPoint => ({ tempo, intensity, logPrior: 0 });

function sumOfSquares(of: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < of.length; k++) sum += of[k] * of[k];
  return sum;
}

/** Prior and markers. */
const believed = ({ submodel }: Trial, evidence: Evidence, tempo: number, intensity: number): number =>
  evidence(submodel, gridPoint({ tempo, intensity })) - (tempo * tempo + intensity * intensity) / 2;

function slopesOfBelief(trial: Trial, evidence: Evidence, tempo: number, intensity: number) {
  const here = believed(trial, evidence, tempo, intensity);
  const later = believed(trial, evidence, tempo + ASIDE, intensity);
  const earlier = believed(trial, evidence, tempo - ASIDE, intensity);
  const more = believed(trial, evidence, tempo, intensity + ASIDE);
  const less = believed(trial, evidence, tempo, intensity - ASIDE);
  const bend = (up: number, down: number) => Math.max(LEAST_BEND, (2 * here - up - down) / ASIDE ** 2);
  return {
    t: (later - earlier) / (2 * ASIDE),
    i: (more - less) / (2 * ASIDE),
    tt: bend(later, earlier),
    ti: 0,
    ii: bend(more, less),
  };
}
