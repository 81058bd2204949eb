import type { DayNumber } from '../../records/dates.js';
import { measures, type Series } from '../../records/measure.js';
import { denseLogDeterminant } from '../../statistics/dense-cholesky.js';
import { batchedMixtureWeights } from '../../statistics/tensor/batched-mixture-weights.js';
import { batchedPassage, type PassageJob } from '../../statistics/tensor/batched-passage.js';
import { type TensorBackend, tensorBackend } from '../../statistics/tensor/tensor-backend.js';
import { conditionChild } from '../child/condition-child.js';
import { sideCode } from '../child/points.js';
import { readings } from '../child/readings.js';
import type { World } from '../child/worlds.js';
import type { GrowthInput } from '../contract.js';
import { growthAgeYears, logAge } from '../population/growth-age.js';
import type { GrowthModel } from '../population/growth-model.js';
import { isLogMeasure } from '../population/growth-scale.js';
import { pathPlan } from './path-plan.js';

/** Which limits a device has: growth in mm since the cast, per series. */
export interface PassageQuestion {
  readonly input: GrowthInput;
  readonly series: readonly Series[];
  readonly allowanceMm: readonly number[];
  /** In time order; the cast is one of them. */
  readonly days: readonly DayNumber[];
  readonly castDay: DayNumber;
  /** First day a passage counts. */
  readonly fromDay: DayNumber;
}

/** Children worked on in one go: bounds the memory of the padded tensors. */
const CHUNK = 8;
const GROUP_DRAWS = 24;

/**
 * For a whole caseload at once: chance that a device is outgrown by each day. Covariances are factored in float64;
 * grid weights, path sampling and first passage run as tensors. Null where a child has no reading the model knows.
 * Agrees with the single child's float64 path for the same seed (tests/growth/caseload-passage.test.ts).
 */
export async function caseloadPassage(
  questions: readonly PassageQuestion[],
  model: GrowthModel,
  draws: number,
  seed: number,
): Promise<{ backend: TensorBackend; chance: (Float64Array | null)[] }> {
  const chance: (Float64Array | null)[] = questions.map(() => null);
  for (let start = 0; start < questions.length; start += CHUNK) {
    const chunk = questions.slice(start, start + CHUNK).flatMap((question, i) => {
      const seen = readings(question.input, model);
      return seen.length
        ? [{ at: start + i, question, conditioned: conditionChild(question.input, model, seen) }]
        : [];
    });
    if (!chunk.length) continue;
    const weighed = await reweigh(chunk.map((c) => c.conditioned.worlds));
    const jobs = chunk.map(({ question, conditioned }, i) =>
      job(question, model, weighed[i], conditioned.prior, draws, seed),
    );
    const found = await batchedPassage(jobs);
    chunk.forEach(({ at }, i) => {
      chance[at] = found[i];
    });
  }
  return { backend: await tensorBackend(), chance };
}

/** The worlds' posterior weights, worked out for all children together. */
async function reweigh(children: readonly (readonly World[])[]): Promise<World[][]> {
  const weights = await batchedMixtureWeights(
    children.map((worlds) => ({
      whitened: worlds.map((w) => whitened(w)),
      logDeterminant: worlds.map((w) => denseLogDeterminant(w.factor, w.placed.n)),
      logPrior: worlds.map((w) => w.logPrior),
    })),
  );
  return children.map((worlds, c) => worlds.map((w, i) => ({ ...w, weight: weights[c][i] })));
}

/** R^-1 (y - mean) of a world: R' alpha. */
function whitened(w: World): Float64Array {
  const n = w.placed.n;
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let k = i; k < n; k++) z[i] += w.factor[k * n + i] * w.alpha[k];
  return z;
}

function job(
  q: PassageQuestion,
  model: GrowthModel,
  worlds: readonly World[],
  prior: Parameters<typeof pathPlan>[5],
  draws: number,
  seed: number,
): PassageJob {
  const series = q.series.map((s) => ({
    id: s.measure,
    rows: q.days.map((day) => ({
      measure: model.index.get(s.measure) as number,
      side: sideCode(s.side),
      x: logAge(growthAgeYears(q.input.birthDate, day, q.input.gestationWeeks)),
    })),
  }));
  const { knots, groups, chance } = pathPlan(worlds, series, q.days, draws, seed, prior);
  const k = knots.at.length;
  const times = q.days.length;
  const interpolation = new Float64Array(k * times);
  for (let t = 0; t < times; t++) {
    interpolation[knots.before[t] * times + t] += 1 - knots.fraction[t];
    if (knots.fraction[t] > 0) interpolation[(knots.before[t] + 1) * times + t] += knots.fraction[t];
  }
  return {
    // Split evenly, so that padding to the largest group wastes little.
    groups: groups.flatMap((g) =>
      Array.from({ length: Math.ceil(g.count / GROUP_DRAWS) }, (_, part) => {
        const count = Math.min(GROUP_DRAWS, g.count - part * GROUP_DRAWS);
        return {
          draws: count,
          mean: g.mean,
          factor: g.factor,
          expected: g.expected,
          normals: Float64Array.from({ length: count * k * series.length }, () => chance.normal()),
        };
      }),
    ),
    interpolation,
    knots: k,
    times,
    limit: q.allowanceMm,
    monotone: q.series.map((s) => measures[s.measure].skeletal),
    logarithm: q.series.map((s) => isLogMeasure(s.measure)),
    from: q.days.indexOf(q.castDay),
    search: q.days.findIndex((d) => d >= q.fromDay),
  };
}
