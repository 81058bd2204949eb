import type { Points } from './points.js';
import type { SexCurves } from './sex-curves.js';

/** What is believed about one child beyond age and sex, per measure of the model, in z units. */
export interface ChildPrior {
  /** Mean shift of the child's size. */
  readonly shift: Float64Array;
  /** SD of the child's size against the population's (1 = the same). */
  readonly spread: Float64Array;
  /** Mean shift of the left and of the right side against the child's own middle. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Lasting deviation of each side from the middle, SD. */
  readonly sideSd: Float64Array;
  /** By how much a side grows faster or slower than the middle, SD, as a share of the median child's growth since `seenFrom`. */
  readonly sidePace: Float64Array;
  /** Log-age at which the child was first measured. */
  readonly seenFrom: number;
  /** Variance of the residual process against the population's (1 = the same). */
  readonly residual: number;
}

/** Points as they look in one component: everything the covariance needs, worked out once per point. */
export interface Placed {
  readonly n: number;
  readonly points: Points;
  /** Expected size on the model's scale (mm, or log). */
  readonly mean: Float64Array;
  /** Model-scale units per z unit. */
  readonly scale: Float64Array;
}

/** One quadrature point over the child's tempo and intensity, in prior SD, with what it stands for of the prior. */
export interface GridPoint {
  readonly tempo: number;
  readonly intensity: number;
  readonly logPrior: number;
}

/**
 * One way a population of one sex grows. At a grid point all of a child's series are jointly Gaussian;
 * a submodel says with what mean and covariance. Submodels are averaged as a mixture with weights by age.
 */
export interface Submodel {
  readonly curves: SexCurves;
  readonly name: string;
  /**
   * Submodels of one pool (both sexes of a child of unknown sex, variants of one way of growing) are weighed by prior x
   * likelihood of the child's data; pools against each other by `logWeight` alone. How likely each variant is before
   * the data is part of the evidence (`candidatesOf`).
   */
  readonly pool: string;
  /** Taken as it stands; with `seeksTempo` only its span counts, and the points are put where the child's tempo is. */
  readonly grid: readonly GridPoint[];
  readonly seeksTempo: boolean;
  /** Years by which growth comes late (+) or early (-) at a tempo, at the age of peak velocity. */
  tempoYears(tempo: number): number;
  readonly peakVelocityAgeYears: number;
  /** Log-age at which the average child is as mature as this one is at log-age x. */
  maturity(x: number, at: GridPoint): number;
  /** Prior log weight of the submodel's pool for a child last seen at this log-age. */
  logWeight(x: number): number;
  /** `again`: what an earlier call for the same points gave and nobody needs any more, to be written over. */
  place(points: Points, prior: ChildPrior, at: GridPoint, again?: Placed): Placed;
  /** The part of the covariance that no grid point changes, z units, a.n x b.n row-major; as below where a === b. */
  fixedCovariance(a: Points, b: Points, prior: ChildPrior): Float64Array;
  /**
   * Covariance on the model's scale into `out` (a.n x b.n), given the fixed part of the same points. Of points with
   * themselves (a === b) only the lower triangle is filled.
   */
  covariance(a: Placed, b: Placed, fixed: Float64Array, prior: ChildPrior, out: Float64Array): void;
  /** Covariance of b with a times `alpha` (one of each point of a), added to `out`, without making the covariance. */
  pull(a: Placed, alpha: Float64Array, b: Placed, fixed: Float64Array, out: Float64Array): void;
}
