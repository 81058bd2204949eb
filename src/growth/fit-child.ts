import { childPosterior } from './child-posterior.js';
import { childPrior } from './child-prior.js';
import type { ChildPosterior, GrowthInput, GrowthOutcome } from './contract.js';
import { doubt } from './doubt.js';
import type { GrowthModel } from './growth-model.js';
import { markerEvidence } from './marker-evidence.js';
import { readings } from './readings.js';
import { refineGrid } from './refine-grid.js';
import { type Candidate, worlds } from './worlds.js';

/** From this age on nobody is a growing child to the model. */
const ADULT_YEARS = 21;

/**
 * Conditions the growth model on everything known about a child. Readings of measures without a reference are
 * passed over. A sex of 'unknown' mixes both sexes, evenly before the readings and as they speak after.
 */
export function fitChild(input: GrowthInput, model: GrowthModel): GrowthOutcome {
  const seen = readings(input, model);
  if (seen.length === 0)
    return {
      kind: 'too-few-measurements',
      advice: 'No dimension with a growth reference has been measured yet: measure the child, then forecast.',
    };
  if (seen.every((r) => r.ageYears >= ADULT_YEARS))
    return {
      kind: 'past-reference-age',
      advice: 'Every measurement was taken at 21 years or later: review for wear and condition, not growth.',
    };
  const prior = childPrior(input, model.measures);
  const evidence = markerEvidence(input);
  const sexes = input.sex === 'unknown' ? (['male', 'female'] as const) : [input.sex];
  const candidates = sexes.flatMap((sex) =>
    model.members[sex].map((member): Candidate => ({ sex, member, grid: member.grid })),
  );
  const doubts = doubt(candidates, seen, prior, evidence);
  const all = worlds(refineGrid(candidates, doubts.worlds), seen, prior, doubts.variance, evidence);
  const posterior: ChildPosterior = childPosterior({ input, model, seen, prior, doubts, worlds: all });
  return { kind: 'posterior', posterior };
}
