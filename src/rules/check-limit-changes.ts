import { DoorpostError } from '../errors.js';
import { type ClinicLimit, type LimitChange, limitKey } from './clinic-limits.js';
import { findLimitProblems } from './find-limit-problems.js';
import type { FitRules } from './fit-rule.js';

/** Refuses changes of which one cannot stand, naming it and what is accepted. */
export function checkLimitChanges(
  shipped: FitRules,
  current: readonly ClinicLimit[],
  changes: readonly LimitChange[],
): void {
  const [problem] = findLimitProblems(shipped, current, changes);
  if (!problem) return;
  const { change, field, given, why, accepted } = problem;
  throw new DoorpostError(
    'invalid-rule',
    `Fit limit ${limitKey(changes[change])}, ${field} '${given}': ${why}. Accepted: ${accepted}`,
    { field: `changes.${change}.${field}`, given, accepted },
  );
}
