import { DoorpostError } from '../errors.js';
import type { FamilyRule, FitRules } from './fit-rule.js';

/** The fit rule of a device's family, or an error that lists the families there are. */
export function ruleOf(rules: FitRules, family: string): FamilyRule {
  const rule = rules.get(family);
  if (rule) return rule;
  throw new DoorpostError('invalid-rule', `There is no fit rule for the family '${family}'`, {
    field: 'family',
    given: family,
    accepted: [...rules.keys()].join(', '),
  });
}
