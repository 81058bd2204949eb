import type { GrowthInput } from '../contract.js';
import type { GrowthModel } from '../population/growth-model.js';
import { childPrior } from './child-prior.js';
import type { Conditioned } from './conditioned.js';
import { doubt } from './doubt.js';
import { markerEvidence } from './marker-evidence.js';
import type { Reading } from './readings.js';
import { refineGrid } from './refine-grid.js';
import { type Candidate, worlds } from './worlds.js';

/** All worlds a child may live in, weighed by everything known about it. `seen` must not be empty. */
export function conditionChild(
  input: GrowthInput,
  model: GrowthModel,
  seen: readonly Reading[],
): Conditioned {
  const prior = childPrior(input, model.measures);
  const evidence = markerEvidence(input);
  const sexes = input.sex === 'unknown' ? (['male', 'female'] as const) : [input.sex];
  const candidates = sexes.flatMap((sex) =>
    model.members[sex].map((member): Candidate => ({ sex, member, grid: member.grid })),
  );
  const doubts = doubt(candidates, seen, prior, evidence);
  const fine = refineGrid(candidates, doubts.worlds);
  return { input, model, seen, prior, doubts, worlds: worlds(fine, seen, prior, doubts.variance, evidence) };
}
