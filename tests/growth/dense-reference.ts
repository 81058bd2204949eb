import { childPrior } from '../../src/growth/child/child-prior.js';
import { markerEvidence } from '../../src/growth/child/marker-evidence.js';
import { readings } from '../../src/growth/child/readings.js';
import type { GrowthInput } from '../../src/growth/contract.js';
import { growthAgeYears, logAge } from '../../src/growth/population/growth-age.js';
import type { GrowthModel } from '../../src/growth/population/growth-model.js';
import { fromScale } from '../../src/growth/population/growth-scale.js';
import { points, sideCode } from '../../src/growth/population/points.js';
import type { GridPoint, Submodel } from '../../src/growth/population/submodel.js';
import { measures, type Series } from '../../src/records/measure.js';
import { cholesky, choleskyLogDeterminant, choleskySolve } from '../../src/statistics/cholesky.js';
import { randomStream } from '../../src/statistics/random-stream.js';

/*
 * The same model worked out the long way, in float64: a dense grid of tempo and intensity instead of a few
 * points, every component's whole covariance conditioned and factored, plain chance, plain loops. Shares the submodels'
 * means and covariances with the product and nothing of how they are put to use.
 */

const TEMPO_STEPS = 61;
const INTENSITY_STEPS = 21;
const SPAN = 3.6;

function denseGrid(): GridPoint[] {
  const line = (n: number) => Array.from({ length: n }, (_, i) => SPAN * ((2 * i) / (n - 1) - 1));
  return line(TEMPO_STEPS).flatMap((tempo) =>
    line(INTENSITY_STEPS).map((intensity) => ({
      tempo,
      intensity,
      logPrior: -(tempo ** 2 + intensity ** 2) / 2,
    })),
  );
}

interface DenseComponent {
  readonly submodel: Submodel;
  readonly at: GridPoint;
  readonly log: number;
}

/** Joint draws of noise-free sizes, as ChildPosterior.sample lays them out. One sex; at least one reading. */
export function denseSample(
  input: GrowthInput,
  model: GrowthModel,
  series: readonly Series[],
  days: readonly number[],
  draws: number,
  seed: number,
): Float64Array[] {
  const sex = input.sex as 'male' | 'female';
  const seen = readings(input, model);
  const at = points(seen);
  const prior = childPrior(input, model.measures);
  const evidence = markerEvidence(input);
  const rows = series.flatMap((s) =>
    days.map((day) => ({
      measure: model.index.get(s.measure) as number,
      side: sideCode(s.side),
      x: logAge(growthAgeYears(input.birthDate, day, input.gestationWeeks)),
    })),
  );
  const there = points(rows);
  const matrix = (n: number, entry: (i: number, j: number) => number) =>
    Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => entry(i, j)));
  const seenCovariance = (submodel: Submodel, g: GridPoint) => {
    const placed = submodel.place(at, prior, g);
    const v = new Float64Array(at.n * at.n);
    submodel.covariance(placed, placed, submodel.fixedCovariance(at, at, prior), prior, v);
    const factor = cholesky(
      matrix(at.n, (i, j) => v[Math.max(i, j) * at.n + Math.min(i, j)] + (i === j ? seen[i].variance : 0)),
    )!;
    return { placed, factor, off: seen.map((r, i) => r.value - placed.mean[i]) };
  };
  const pools = new Map<string, DenseComponent[]>();
  for (const submodel of model.submodels[sex]) {
    if (!Number.isFinite(submodel.logWeight(at.x[at.n - 1]))) continue;
    const components = (submodel.seeksTempo ? denseGrid() : submodel.grid).map((g): DenseComponent => {
      const { factor, off } = seenCovariance(submodel, g);
      const alpha = choleskySolve(factor, off);
      const square = off.reduce((sum, v, i) => sum + v * alpha[i], 0);
      return {
        submodel,
        at: g,
        log: g.logPrior + evidence(submodel, g) - (square + choleskyLogDeterminant(factor)) / 2,
      };
    });
    pools.set(submodel.pool, [...(pools.get(submodel.pool) ?? []), ...components]);
  }
  const shares = [...pools.values()].map(([first]) => Math.exp(first.submodel.logWeight(at.x[at.n - 1])));
  const all = [...pools.values()].flatMap((pool, p) => {
    const top = Math.max(...pool.map((w) => w.log));
    const total = pool.reduce((sum, w) => sum + Math.exp(w.log - top), 0);
    return pool.map((w) => ({ ...w, weight: (shares[p] * Math.exp(w.log - top)) / total }));
  });
  const sum = all.reduce((s, w) => s + w.weight, 0);
  const chance = randomStream(seed);
  const q = rows.length;
  const nd = days.length;
  const out = series.map(() => new Float64Array(draws * nd));
  let upTo = 0;
  let drawn = 0;
  for (const w of all) {
    upTo += w.weight / sum;
    // Systematic sampling over all components.
    const until = Math.min(draws, Math.floor(upTo * draws + 0.5));
    if (until === drawn) continue;
    const { placed, factor, off } = seenCovariance(w.submodel, w.at);
    const placedThere = w.submodel.place(there, prior, w.at);
    const cross = new Float64Array(at.n * q);
    w.submodel.covariance(placed, placedThere, w.submodel.fixedCovariance(at, there, prior), prior, cross);
    const self = new Float64Array(q * q);
    w.submodel.covariance(
      placedThere,
      placedThere,
      w.submodel.fixedCovariance(there, there, prior),
      prior,
      self,
    );
    const column = (j: number) => seen.map((_, i) => cross[i * q + j]);
    const alpha = choleskySolve(factor, off);
    const solved = rows.map((_, j) => choleskySolve(factor, column(j)));
    const conditional = cholesky(
      matrix(q, (i, j) => {
        const prior = self[Math.max(i, j) * q + Math.min(i, j)];
        const taken = column(i).reduce((s, v, k) => s + v * solved[j][k], 0);
        return prior - taken + (i === j ? 1e-6 * prior + 1e-9 : 0);
      }),
    )!;
    const mean = rows.map((_, j) => placedThere.mean[j] + column(j).reduce((s, v, k) => s + v * alpha[k], 0));
    for (; drawn < until; drawn++) {
      const z = rows.map(() => chance.normal());
      series.forEach(({ measure }, s) => {
        let highest = Number.NEGATIVE_INFINITY;
        for (let j = 0; j < nd; j++) {
          const i = s * nd + j;
          let value = mean[i];
          for (let k = 0; k <= i; k++) value += conditional[i][k] * z[k];
          const size = fromScale(measure, value);
          highest = Math.max(highest, size);
          out[s][drawn * nd + j] = measures[measure].skeletal ? highest : size;
        }
      });
    }
  }
  return out;
}
