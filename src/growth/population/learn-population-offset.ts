import { denseBackward, denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';
import { childPrior } from '../child/child-prior.js';
import { points } from '../child/points.js';
import { quadratureGrid } from '../child/quadrature-grid.js';
import { readings } from '../child/readings.js';
import type { GrowthInput } from '../contract.js';
import { readTable } from './curve-table.js';
import { logAge } from './growth-age.js';
import type { GrowthModel } from './growth-model.js';
import { growthModel } from './model.js';
import type { PopulationOffset } from './population-offset.js';

const GRID = quadratureGrid(7, 5, 2.6);
/** How alike a child's own readings are: how little a second reading of the same child adds. */
const ALIKE = 0.85;
/** Belief before the caseload, population SD: level, slope and bend over log-age. */
const PRIOR_SD = [0.6, 3, 8];
/** A residual counts as at most this many SD, so that one slip does not move everybody. */
const CAP = 4;
/** An offset is learned from this many children of a sex on. */
const FEWEST_CHILDREN = 5;

/**
 * The same model, its mean curves moved to a clinic's own children (weighted ridge regression of what they stand
 * off the curve, per sex and measure). For a model learned elsewhere the reference's bias is the largest error.
 */
export function learnPopulationOffset(model: GrowthModel, inputs: readonly GrowthInput[]): GrowthModel {
  const offsets: PopulationOffset[] = [];
  for (const sex of ['male', 'female'] as const) {
    const member = model.members[sex].find((m) => m.grid.length > 1) ?? model.members[sex][0];
    const centre = logAge(member.peakVelocityAgeYears);
    const rows = inputs
      .filter((i) => i.sex === sex)
      .flatMap((input, child) => {
        const seen = readings(input, model);
        const at = points(seen);
        const prior = childPrior(input, model.measures);
        const expected = new Float64Array(at.n);
        for (const g of GRID) {
          const { mean } = member.place(at, prior, g);
          for (let i = 0; i < at.n; i++) expected[i] += Math.exp(g.logPrior) * mean[i];
        }
        return seen.map((r, i) => ({
          child,
          measure: r.measure,
          u: r.x - centre,
          residual: r.value - expected[i],
          sd: readTable(member.curves.sd[r.measure], r.x) * prior.spread[r.measure],
          error: r.variance,
        }));
      });
    for (const [d, measure] of model.measures.entries()) {
      const own = rows.filter((r) => r.measure === d);
      const perChild = new Map<number, number>();
      for (const r of own) perChild.set(r.child, (perChild.get(r.child) ?? 0) + 1);
      if (perChild.size < FEWEST_CHILDREN) continue;
      const us = own.map((r) => r.u);
      const unit = readTable(member.curves.sd[d], centre);
      const normal = Float64Array.from({ length: 9 }, (_, i) =>
        i % 4 === 0 ? (PRIOR_SD[i / 4] * unit) ** -2 : 0,
      );
      const right = new Float64Array(3);
      for (const r of own) {
        const n = perChild.get(r.child) as number;
        const weight = 1 / ((r.sd ** 2 + r.error) * (1 + (n - 1) * ALIKE));
        const residual = Math.min(Math.max(r.residual, -CAP * r.sd), CAP * r.sd);
        const basis = [1, r.u, r.u * r.u];
        for (let a = 0; a < 3; a++) {
          right[a] += weight * basis[a] * residual;
          for (let b = 0; b < 3; b++) normal[a * 3 + b] += weight * basis[a] * basis[b];
        }
      }
      denseCholesky(normal, 3);
      denseForward(normal, 3, right);
      denseBackward(normal, 3, right);
      const coefficients: [number, number, number] = [right[0], right[1], right[2]];
      offsets.push({ measure, sex, fromU: Math.min(...us), toU: Math.max(...us), coefficients });
    }
  }
  const { parameters, references } = model;
  return growthModel({ ...parameters, offsets: mergeOffsets(parameters.offsets, offsets) }, references);
}

/** A second learning starts where the first left off: both offsets add up. */
function mergeOffsets(
  before: readonly PopulationOffset[],
  more: readonly PopulationOffset[],
): PopulationOffset[] {
  return [
    ...before.filter((b) => !more.some((m) => m.measure === b.measure && m.sex === b.sex)),
    ...more.map((m) => {
      const b = before.find((x) => x.measure === m.measure && x.sex === m.sex);
      if (!b) return m;
      const [c0, c1, c2] = m.coefficients;
      const [b0, b1, b2] = b.coefficients;
      return { ...m, coefficients: [c0 + b0, c1 + b1, c2 + b2] as [number, number, number] };
    }),
  ];
}
