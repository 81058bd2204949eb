import {
  denseBackward,
  denseCholesky,
  denseForward,
  denseLogDeterminant,
} from '../../statistics/dense-cholesky.js';
import type { Points } from '../population/points.js';
import type { ChildPrior, GridPoint, Placed, Submodel } from '../population/submodel.js';

type Sex = 'male' | 'female';

/** A component of the mixture: a sex, a submodel and a grid point, conditioned on the child's readings. */
export interface Component {
  readonly sex: Sex;
  readonly submodel: Submodel;
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

/** A sex and a submodel to look at, with the grid points to try. */
export interface Candidate {
  readonly sex: Sex;
  readonly submodel: Submodel;
  readonly grid: readonly GridPoint[];
}

/** Values read at some points with their error variances, on the model's scale. */
export interface Data {
  readonly at: Points;
  readonly value: Float64Array;
  readonly variance: Float64Array;
}

export type Evidence = (submodel: Submodel, at: GridPoint) => number;

/** Components lighter than this share of the heaviest are left out. */
const NEGLIGIBLE = 1e-4;

/** Log likelihood of the data in one component, up to a constant; `factor` and `alpha` are written. Null: not definite. */
export function logLikelihood(
  submodel: Submodel,
  placed: Placed,
  data: Data,
  fixed: Float64Array,
  prior: ChildPrior,
  factor: Float64Array,
  alpha: Float64Array,
): number | null {
  const { n } = placed;
  submodel.covariance(placed, placed, fixed, prior, factor);
  for (let i = 0; i < n; i++) {
    factor[i * n + i] += data.variance[i];
    alpha[i] = data.value[i] - placed.mean[i];
  }
  if (!denseCholesky(factor, n)) return null;
  denseForward(factor, n, alpha);
  let square = 0;
  for (let i = 0; i < n; i++) square += alpha[i] * alpha[i];
  return -0.5 * (square + denseLogDeterminant(factor, n));
}

/**
 * Factors of the readings' covariance by component and part, n x n row-major, lower triangle: in arrays that the next
 * child's are written over, because to make and clear hundreds of thousands of numbers a child costs as much as the sums.
 */
export type Factors = readonly (readonly Float64Array[])[];
const pool: Float64Array[] = [];
function pooled(k: number, size: number): Float64Array {
  if (!pool[k] || pool[k].length < size) pool[k] = new Float64Array(Math.ceil(1.5 * size));
  return pool[k];
}

/** Conditions every candidate component on the data; not weighed yet. */
export function conditionComponents(
  candidates: readonly Candidate[],
  data: readonly Data[],
  prior: ChildPrior,
  evidence: Evidence,
): { readonly components: Component[]; readonly factors: Factors } {
  const components: Component[] = [];
  const factors: Float64Array[][] = [];
  for (const { sex, submodel, grid } of candidates) {
    const fixed = data.map(({ at }) => submodel.fixedCovariance(at, at, prior));
    for (const at of grid) {
      const index = components.length;
      let log: number | null = at.logPrior + evidence(submodel, at);
      const parts: ConditionedPart[] = [];
      const own: Float64Array[] = [];
      for (let k = 0; k < data.length && log !== null; k++) {
        const { n } = data[k].at;
        const placed = submodel.place(data[k].at, prior, at);
        const alpha = new Float64Array(n);
        const factor = pooled(index * data.length + k, n * n);
        const said = logLikelihood(submodel, placed, data[k], fixed[k], prior, factor, alpha);
        denseBackward(factor, n, alpha);
        parts.push({ placed, alpha });
        own.push(factor);
        log = said === null ? null : log + said;
      }
      if (log === null) continue;
      components.push({ sex, submodel, at, index, parts, log, weight: 0 });
      factors.push(own);
    }
  }
  return { components, factors };
}

/** Log-age that decides between pools for a child without readings. */
const UNSEEN = Math.log(5.75);

/** Submodels that have a say at the age last seen. */
export function speaking(submodel: Submodel, at: Points): boolean {
  return submodel.logWeight(lastSeen(at)) >= Math.log(NEGLIGIBLE);
}
const lastSeen = (at: Points) => (at.n ? at.x[at.n - 1] : UNSEEN);

/** The components with their posterior weights, those of no weight left out; see `Submodel.pool`. */
export function weightedComponents(components: readonly Component[], at: Points): Component[] {
  const pools = new Map<string, Component[]>();
  for (const w of components) {
    const pool = pools.get(w.submodel.pool);
    if (pool) pool.push(w);
    else pools.set(w.submodel.pool, [w]);
  }
  const x = lastSeen(at);
  const shares = [...pools.values()].map(([first]) => Math.exp(first.submodel.logWeight(x)));
  const total = shares.reduce((a, b) => a + b, 0);
  return [...pools.values()].flatMap((pool, p) => {
    const top = Math.max(...pool.map((w) => w.log));
    const kept = pool.filter((w) => w.log > top + Math.log(NEGLIGIBLE));
    const sum = kept.reduce((s, w) => s + Math.exp(w.log - top), 0);
    return kept.map((w) => ({ ...w, weight: ((shares[p] / total) * Math.exp(w.log - top)) / sum }));
  });
}
