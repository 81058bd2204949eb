import type { GrowthInput } from '../contract.js';
import { conditionEffects } from '../population/condition-effects.js';
import type { GrowthModel } from '../population/growth-model.js';
import { markerEvidence } from './marker-evidence.js';
import type { GridPoint, Member } from './member.js';
import type { Reading } from './readings.js';
import { unusualPaces } from './unusual-paces.js';

/** Everything a child may be, and what is believed of it before its readings speak. */
export interface Candidates {
  readonly list: readonly { readonly sex: 'male' | 'female'; readonly member: Member }[];
  /** Log of marker likelihood and of the beliefs about pace and tempo. */
  readonly evidence: (member: Member, at: GridPoint) => number;
}

/**
 * Where a condition brings puberty early, slow growth is no sign of a late one: without a marker, tempo later than the
 * average is believed only this far, SD. Own.
 */
const LATE_WITHOUT_MARKER = 0.2;

export function candidatesOf(input: GrowthInput, model: GrowthModel, seen: readonly Reading[]): Candidates {
  const sexes = input.sex === 'unknown' ? (['male', 'female'] as const) : [input.sex];
  const paces = sexes.flatMap((sex) =>
    model.members[sex].flatMap((usual) =>
      usual.grid.length === 1
        ? [{ sex, member: usual, probability: 1 }]
        : unusualPaces(usual, input, seen, model.measures).map((pace) => ({ sex, ...pace })),
    ),
  );
  const belief = new Map(paces.map((p) => [p.member, Math.log(p.probability)]));
  const markers = markerEvidence(input);
  const earlier = Math.min(0, ...input.conditions.map((c) => conditionEffects[c].tempoShift));
  const doubted = earlier < 0 && input.markers.length === 0;
  const lateness = (tempo: number) => (doubted && tempo > 0 ? (tempo / LATE_WITHOUT_MARKER) ** 2 / 2 : 0);
  return {
    list: paces.map(({ sex, member }) => ({ sex, member })),
    evidence: (member, at) =>
      markers(member, at) +
      (belief.get(member) ?? 0) +
      // The standard normal belief in tempo, moved by the condition.
      (member.grid.length === 1 ? 0 : at.tempo * earlier - (earlier * earlier) / 2 - lateness(at.tempo)),
  };
}
