import type { LimitPlace } from './clinic-limits.js';
import type { FitDimension, FitRules } from './fit-rule.js';

/** The figure at a place of these rules with its source; null where the rules have none there. */
export function figureOf(
  rules: FitRules,
  { family, measure, figure }: LimitPlace,
): FitDimension['allowanceMm'] | null {
  return rules.get(family)?.dimensions.find((d) => d.measure === measure)?.[figure] ?? null;
}
