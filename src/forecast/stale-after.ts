import type { FamilyRule } from '../rules/fit-rule.js';

/** Days after which the last measurement no longer supports a date: growth is quicker in the young (common practice, no source). */
export function staleAfterDays(rule: FamilyRule, ageYears: number): number {
  if (rule.resolution === 'day') return 42;
  return ageYears < 3 ? 183 : 365;
}
