import type { MeasureId } from '../../records/measure.js';
import { denseCholesky } from '../../statistics/dense-cholesky.js';
import type { RandomStream } from '../../statistics/random-stream.js';
import { logAge } from '../population/growth-age.js';
import type { GrowthModel } from '../population/growth-model.js';
import { fromScale } from '../population/growth-scale.js';
import { points, sides } from '../population/points.js';
import type { ChildPrior } from '../population/submodel.js';

/** An invented child's true size of each measure at each age. */
export type SimulatedSizes = readonly Readonly<Partial<Record<MeasureId, number>>>[];

/** Keeps a nearly singular covariance (sizes weeks apart) positive definite, as a share of each variance. */
const JITTER = 1e-7;

/**
 * A child drawn from the population model itself: tempo and intensity from their standard normal, all sizes jointly
 * given them. From its tempo submodel, so for ages at which that submodel speaks (from about 3 years). A model is
 * calibrated when its forecasts of such children are right as often as they say.
 */
export function simulateChild(
  model: GrowthModel,
  sex: 'male' | 'female',
  measures: readonly MeasureId[],
  agesYears: readonly number[],
  stream: RandomStream,
): SimulatedSizes {
  const submodel = model.submodels[sex].find((m) => m.grid.length > 1);
  if (submodel === undefined) throw new Error(`model ${model.name} has no tempo submodel to draw from`);
  const rows = agesYears.flatMap((age) =>
    measures.map((id) => ({ measure: model.index.get(id) as number, side: sides.middle, x: logAge(age) })),
  );
  const at = points(rows);
  const prior = healthyPrior(model.measures.length);
  const placed = submodel.place(at, prior, {
    tempo: stream.normal(),
    intensity: stream.normal(),
    logPrior: 0,
  });
  const n = rows.length;
  const factor = new Float64Array(n * n);
  submodel.covariance(placed, placed, submodel.fixedCovariance(at, at, prior), prior, factor);
  for (let i = 0; i < n; i++) factor[i * n + i] *= 1 + JITTER;
  if (!denseCholesky(factor, n)) throw new Error('a simulated covariance is not positive definite');
  const normal = rows.map(() => stream.normal());
  const sizes = rows.map((_, i) => {
    let sum = placed.mean[i];
    for (let k = 0; k <= i; k++) sum += factor[i * n + k] * normal[k];
    return sum;
  });
  return agesYears.map((_, a) =>
    Object.fromEntries(measures.map((id, d) => [id, fromScale(id, sizes[a * measures.length + d])])),
  );
}

/** A child without any condition. */
function healthyPrior(n: number): ChildPrior {
  const none = () => new Float64Array(n);
  return {
    shift: none(),
    spread: new Float64Array(n).fill(1),
    left: none(),
    right: none(),
    sideSd: none(),
    sidePace: none(),
    seenFrom: 0,
    residual: 1,
  };
}
