import { denseBackward, denseCholesky, denseForward } from '../../statistics/dense-cholesky.js';
import { groupBy } from '../../statistics/group-by.js';
import { childPrior } from '../child/child-prior.js';
import { points } from '../child/points.js';
import { quadratureGrid } from '../child/quadrature-grid.js';
import { readings } from '../child/readings.js';
import type { GrowthInput } from '../contract.js';
import { readTable } from './curve-table.js';
import { logAge } from './growth-age.js';
import type { GrowthModel } from './growth-model.js';
import { growthModel } from './model.js';
import { OFFSET_SIZE, offsetBasis, type PopulationOffset } from './population-offset.js';

const GRID = quadratureGrid(7, 5, 2.6);
/** Share of a reading's variance that is the child's own level, the same at every visit. */
const ALIKE = 0.85;
/** Belief before the caseload, population SD, for each shape of the offset: references err in level first. */
const PRIOR_SD = [0.5, 0.25, 0.2, 0.15, 0.15];
/** A residual counts as at most this many SD, so that one slip does not move everybody. */
const CAP = 4;
/** An offset is learned from this many children of a sex on. */
const FEWEST_CHILDREN = 5;

/**
 * The same model, its mean curves moved to a clinic's own children: generalised least squares of what they stand
 * off the curve, per sex and measure, with an error all visits of a child share (V = D + aa') and a prior. A child
 * seen often says little of the level and much of the slope. For a model learned elsewhere the reference's bias is
 * the largest error.
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
      const perChild = groupBy(own, (r) => r.child);
      if (perChild.size < FEWEST_CHILDREN) continue;
      const us = own.map((r) => r.u);
      const unit = readTable(member.curves.sd[d], centre);
      const k = OFFSET_SIZE;
      const normal = new Float64Array(k * k);
      for (let a = 0; a < k; a++) normal[a * k + a] = (PRIOR_SD[a] * unit) ** -2;
      const right = new Float64Array(k);
      for (const visits of perChild.values()) addChild(visits, normal, right);
      denseCholesky(normal, k);
      denseForward(normal, k, right);
      denseBackward(normal, k, right);
      offsets.push({
        measure,
        sex,
        fromU: Math.min(...us),
        toU: Math.max(...us),
        coefficients: [...right],
        children: perChild.size,
      });
    }
  }
  const { parameters, references } = model;
  return growthModel({ ...parameters, offsets: mergeOffsets(parameters.offsets, offsets) }, references);
}

interface OffsetRow {
  readonly u: number;
  readonly residual: number;
  /** SD between children, and variance of the reading's own error. */
  readonly sd: number;
  readonly error: number;
}

/** Adds B'V^-1 B and B'V^-1 r of one child; V = D + aa' is inverted by Sherman and Morrison's formula. */
function addChild(visits: readonly OffsetRow[], normal: Float64Array, right: Float64Array): void {
  const k = right.length;
  const columns = visits.map((r) => {
    const own = 1 / ((1 - ALIKE) * r.sd ** 2 + r.error);
    const residual = Math.min(Math.max(r.residual, -CAP * r.sd), CAP * r.sd);
    return { own, shared: Math.sqrt(ALIKE) * r.sd, basis: offsetBasis(r.u), residual };
  });
  const along = new Float64Array(k);
  let alongResidual = 0;
  let norm = 1;
  for (const { own, shared, basis, residual } of columns) {
    norm += own * shared * shared;
    alongResidual += own * shared * residual;
    for (let a = 0; a < k; a++) along[a] += own * shared * basis[a];
    for (let a = 0; a < k; a++) {
      right[a] += own * basis[a] * residual;
      for (let b = 0; b < k; b++) normal[a * k + b] += own * basis[a] * basis[b];
    }
  }
  for (let a = 0; a < k; a++) {
    right[a] -= (along[a] * alongResidual) / norm;
    for (let b = 0; b < k; b++) normal[a * k + b] -= (along[a] * along[b]) / norm;
  }
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
      return b ? { ...m, coefficients: m.coefficients.map((c, i) => c + b.coefficients[i]) } : m;
    }),
  ];
}
