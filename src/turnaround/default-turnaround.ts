import type { FamilyId } from '../records/device.js';
import type { FitRules } from '../rules/fit-rule.js';
import { loadRules } from '../rules/load-rules.js';

/** Calendar days from cast or scan to fitting, before a clinic has a history of its own. */
export interface DefaultTurnaround {
  readonly medianDays: number;
  /** SD of the natural logarithm of the days: 0.25 puts four in five between 0.73 and 1.38 of the median. */
  readonly logSd: number;
}

const shipped = loadRules();
/** A device whose family has no rule. */
const OTHER_FAMILY_DAYS = 21;
const LOG_SD = 0.25;

/** The days its rule states: defaultTurnaround('kafo') = { medianDays: 42, logSd: 0.25 }. */
export function defaultTurnaround(family: FamilyId, rules: FitRules = shipped): DefaultTurnaround {
  return { medianDays: rules.get(family)?.turnaroundDays.value ?? OTHER_FAMILY_DAYS, logSd: LOG_SD };
}
