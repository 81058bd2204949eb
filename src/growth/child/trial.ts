import {
  denseBackward,
  denseCholesky,
  denseForward,
  denseLogDeterminant,
} from '../../statistics/dense-cholesky.js';
import type { Points } from '../population/points.js';
import type { ChildPrior, GridPoint, Placed, Submodel } from '../population/submodel.js';

/** Values read at some points with their error variances, on the model's scale. */
export interface Data {
  readonly at: Points;
  readonly value: Float64Array;
  readonly variance: Float64Array;
}

/** A sex and a way of growing that a child may have. */
export interface Candidate {
  readonly sex: 'male' | 'female';
  readonly submodel: Submodel;
}

/** A candidate put to a child's readings: what no tempo changes is worked out once. */
export interface Trial extends Candidate {
  readonly prior: ChildPrior;
  /** What the sides have in common, and the part of its covariance that no tempo changes, errors left out. */
  readonly common: Data;
  readonly fixed: Float64Array;
  /** What the sides differ by says nothing of tempo: conditioned once, with the factors of its covariance. */
  readonly differences: readonly ConditionedPart[];
  readonly differenceFactors: readonly Float64Array[];
  /** Log likelihood of the differences, up to a constant. */
  readonly log: number;
}

/** Readings as they look at one tempo: V = R R' with its factor in an array that was given for it. */
export interface Look {
  readonly placed: Placed;
  /** R^-1 (y - mean), and the log likelihood, up to a constant. */
  readonly white: Float64Array;
  readonly log: number;
}

/** A component of the mixture: a sex, a submodel and a grid point, conditioned on the child's readings. */
export interface Component {
  readonly trial: Trial;
  readonly at: GridPoint;
  /** Which of the components conditioned together it is. */
  readonly index: number;
  /** Of each part of the readings (`partsOf`). */
  readonly parts: readonly ConditionedPart[];
  /** Log of prior x marker evidence x likelihood, before weighing. */
  readonly log: number;
  /** Posterior weight; all components' weights add up to one. */
  readonly weight: number;
}

export interface ConditionedPart {
  readonly placed: Placed;
  /** V^-1 (y - mean). */
  readonly alpha: Float64Array;
}

export type Evidence = (submodel: Submodel, at: GridPoint) => number;

export function trialOf({ sex, submodel }: Candidate, data: readonly Data[], prior: ChildPrior): Trial {
  const [common, ...rest] = data;
  const none = submodel.grid[0];
  const differenceFactors: Float64Array[] = [];
  let log = 0;
  const differences = rest.map((part): ConditionedPart => {
    const factor = submodel.fixedCovariance(part.at, part.at, prior);
    const placed = submodel.place(part.at, prior, none);
    const alpha = new Float64Array(placed.n);
    log += factored(factor, part, placed, alpha) ?? Number.NEGATIVE_INFINITY;
    denseBackward(factor, placed.n, alpha);
    differenceFactors.push(factor);
    return { placed, alpha };
  });
  const fixed = submodel.fixedCovariance(common.at, common.at, prior);
  return { sex, submodel, prior, common, fixed, differences, differenceFactors, log };
}

/** `factor` is written over; `again`: a look that nobody needs any more. Null: the covariance is not definite. */
export function lookAt(trial: Trial, at: GridPoint, factor: Float64Array, again?: Look): Look | null {
  const { common, submodel } = trial;
  const placed = submodel.place(common.at, trial.prior, at, again?.placed);
  const white = again?.white ?? new Float64Array(placed.n);
  readingsCovariance(trial, placed, factor);
  const log = factored(factor, common, placed, white);
  return log === null ? null : { placed, white, log: trial.log + log };
}

/** Covariance of what the readings' sides have in common, errors left out, lower triangle. */
export function readingsCovariance({ fixed, submodel }: Trial, placed: Placed, out: Float64Array): void {
  out.set(fixed);
  submodel.addVarying(placed, placed, out);
}

/** Factors a covariance with the readings' errors added, and whitens what the readings stand off by. */
function factored(covariance: Float64Array, data: Data, placed: Placed, white: Float64Array): number | null {
  const { n } = placed;
  for (let i = 0; i < n; i++) {
    covariance[i * n + i] += data.variance[i];
    white[i] = data.value[i] - placed.mean[i];
  }
  if (!denseCholesky(covariance, n)) return null;
  denseForward(covariance, n, white);
  let square = 0;
  for (let i = 0; i < n; i++) square += white[i] * white[i];
  return -0.5 * (square + denseLogDeterminant(covariance, n));
}

/**
 * Factors of the readings' covariance by component and part, n x n row-major, lower triangle: in arrays that the next
 * child's are written over, because to make and clear hundreds of thousands of numbers a child costs as much as the sums.
 */
export type Factors = readonly (readonly Float64Array[])[];

/** Components with the factors of each, by `Component.index`. */
export interface Components {
  readonly components: readonly Component[];
  readonly factors: Factors;
}

const pool: Float64Array[] = [];
function pooled(k: number, size: number): Float64Array {
  if (!pool[k] || pool[k].length < size) pool[k] = new Float64Array(Math.ceil(1.5 * size));
  return pool[k];
}

/** Conditions a trial on its readings at each grid point; not weighed yet. `from`: components conditioned before. */
export function conditionAt(
  trial: Trial,
  grid: readonly GridPoint[],
  evidence: Evidence,
  from: number,
): Components {
  const components: Component[] = [];
  const factors: Float64Array[][] = [];
  for (const at of grid) {
    const index = from + components.length;
    const factor = pooled(index, trial.fixed.length);
    const look = lookAt(trial, at, factor);
    const log = look && look.log + at.logPrior + evidence(trial.submodel, at);
    if (!look || log === null) continue;
    denseBackward(factor, look.placed.n, look.white);
    const parts = [{ placed: look.placed, alpha: look.white }, ...trial.differences];
    components.push({ trial, at, index, parts, log, weight: 0 });
    factors[index] = [factor, ...trial.differenceFactors];
  }
  return { components, factors };
}
