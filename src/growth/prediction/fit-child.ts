import { GROWN_YEARS } from '../../records/age.js';
import { conditionChild } from '../child/condition-child.js';
import { readings } from '../child/readings.js';
import type { GrowthInput, GrowthOutcome } from '../contract.js';
import type { GrowthModel } from '../population/growth-model.js';
import { childPosterior } from './child-posterior.js';

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
  if (seen.every((r) => r.ageYears >= GROWN_YEARS))
    return {
      kind: 'past-reference-age',
      advice: `Every measurement was taken at ${GROWN_YEARS} years or later: review for wear and condition, not growth.`,
    };
  return { kind: 'posterior', posterior: childPosterior(conditionChild(input, model, seen)) };
}
