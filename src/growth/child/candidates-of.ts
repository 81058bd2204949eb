import type { GrowthInput } from '../contract.js';
import { conditionEffects } from '../population/condition-effects.js';
import type { GrowthModel } from '../population/growth-model.js';
import type { GridPoint, Submodel } from '../population/submodel.js';
import { markerEvidence } from './marker-evidence.js';
import type { Reading } from './readings.js';
import { unusualPaces } from './unusual-paces.js';

/** Everything a child may be, and what is believed of it before its readings speak. */
export interface Candidates {
  readonly list: readonly { readonly sex: 'male' | 'female'; readonly submodel: Submodel }[];
  /** Log of marker likelihood and of the beliefs about pace and tempo. */
  readonly evidence: (submodel: Submodel, at: GridPoint) => number;
}

/**
 * Where a condition brings puberty early, slow growth is no sign of a late one: without a marker, tempo later than the
 * average is believed only this far, SD. Own.
 */
const LATE_WITHOUT_MARKER = 0.2;

export function candidatesOf(input: GrowthInput, model: GrowthModel, seen: readonly Reading[]): Candidates {
  const sexes = input.sex === 'unknown' ? (['male', 'female'] as const) : [input.sex];
  const paces = sexes.flatMap((sex) =>
    model.submodels[sex].flatMap((usual) =>
      usual.grid.length === 1
        ? [{ sex, submodel: usual, probability: 1 }]
        : unusualPaces(usual, input, seen, model.measures).map((pace) => ({ sex, ...pace })),
    ),
  );
  const belief = new Map(paces.map((p) => [p.submodel, Math.log(p.probability)]));
  const markers = markerEvidence(input);
  const earlier = Math.min(0, ...input.conditions.map((c) => conditionEffects[c].tempoShift));
  const doubted = earlier < 0 && input.markers.length === 0;
  const lateness = (tempo: number) => (doubted && tempo > 0 ? (tempo / LATE_WITHOUT_MARKER) ** 2 / 2 : 0);
  return {
    list: paces.map(({ sex, submodel }) => ({ sex, submodel })),
    evidence: (submodel, at) =>
      markers(submodel, at) +
      (belief.get(submodel) ?? 0) +
      // The standard normal belief in tempo, moved by the condition.
      (submodel.grid.length === 1 ? 0 : at.tempo * earlier - (earlier * earlier) / 2 - lateness(at.tempo)),
  };
}
