import type { Families } from '../records/check/device-faults.js';
import type { FitRules } from './fit-rule.js';

/** What records are checked against of each family. */
export const familyFacts = (rules: FitRules): Families =>
  new Map(
    [...rules].map(([id, rule]) => [
      id,
      { sides: rule.sides, measures: rule.dimensions.map((d) => d.measure) },
    ]),
  );
