import { reviewIntervalDays } from '../rules/by-age.js';
import type { FamilyRule } from '../rules/fit-rule.js';

/** A reading speaks for two usual review intervals of its age: one missed visit is forgiven (common practice, no source). */
const INTERVALS = 2;

/** Days after which the last reading no longer supports a date. */
export const staleAfterDays = (rule: FamilyRule, ageYears: number): number =>
  INTERVALS * reviewIntervalDays(rule, ageYears, false);

/** Days from the cast within which a reading says how large the child was then. */
export const nearCastDays = (rule: FamilyRule, ageYears: number): number =>
  reviewIntervalDays(rule, ageYears, false);
