import type { MeasureId } from '../../records/measure.js';
import { measures } from '../../records/measure.js';
import type { GrowthInput } from '../contract.js';
import { type ConditionEffect, conditionEffects } from '../population/condition-effects.js';
import type { ChildPrior } from '../population/submodel.js';

/** Lasting side difference of a healthy child, each side's SD about the middle, z; common practice, no source. */
const HEALTHY_SIDE_SD = 0.12;

/** The largest effect of any condition counts where several touch the same measure; shifts do not add up. */
export function childPrior(input: GrowthInput, ids: readonly MeasureId[]): ChildPrior {
  const effects = input.conditions.map((c) => conditionEffects[c]);
  const largest = (pick: (e: ConditionEffect) => number) =>
    effects.reduce((most, e) => (Math.abs(pick(e)) > Math.abs(most) ? pick(e) : most), 0);
  const n = ids.length;
  const prior = {
    shift: new Float64Array(n),
    spread: new Float64Array(n).fill(1),
    left: new Float64Array(n),
    right: new Float64Array(n),
    sideSd: new Float64Array(n),
    residual: Math.max(1, ...effects.map((e) => e.residualVariance)),
  };
  ids.forEach((id, d) => {
    prior.shift[d] = largest((e) => e.shift[id] ?? 0);
    prior.spread[d] = Math.max(1, ...effects.map((e) => e.spread));
    if (!measures[id].sided) return;
    const affected = largest((e) => e.affectedSideShift[id] ?? 0);
    // The child's middle carries half of a one-sided effect; both sides affected move together.
    if (input.affectedSide === 'left') prior.left[d] = affected;
    if (input.affectedSide === 'right') prior.right[d] = affected;
    if (input.affectedSide === 'both') prior.shift[d] += affected;
    prior.sideSd[d] = Math.max(HEALTHY_SIDE_SD, ...effects.map((e) => e.sideSd));
  });
  return prior;
}
