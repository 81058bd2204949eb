import type { FamilyId } from '../records/device.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';
import type { DurationPrior } from './log-normal-durations.js';

const shipped = loadRules();
/** A device whose family has no rule. */
const OTHER_FAMILY_DAYS = 21;
/** Four in five are between 0.73 and 1.38 of the median. */
const LOG_SD = 0.25;
/** After 8 finished jobs half the answer is the clinic's own. */
const WEIGHT = 8;

/**
 * Calendar days from cast or scan to fitting before a clinic has a history of its own, as the family's rule states them:
 * defaultTurnaround('kafo') = { medianDays: 42, logSd: 0.25, weight: 8 }.
 */
export function defaultTurnaround(family: FamilyId, rules: FitRules = shipped): DurationPrior {
  const medianDays = rules.get(family)?.turnaroundDays.value ?? OTHER_FAMILY_DAYS;
  return { medianDays, logSd: LOG_SD, weight: WEIGHT };
}
