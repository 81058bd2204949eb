import { assessChild } from '../../forecast/assess-child.js';
import type { GrowthOutcome } from '../../growth/contract.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { fitChild } from '../../growth/prediction/fit-child.js';
import type { Measurement } from '../../records/records.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { SimulationAssessor } from './contract.js';

/**
 * The product's own assessment. A visit asks several times with one set of readings, and of readings in doubt without them:
 * growth is fitted once to each set. What cannot be assessed ends the run.
 */
export function simulationAssessor(
  model: GrowthModel,
  rules: FitRules,
  seed: number,
  draws: number,
): SimulationAssessor {
  const known = new WeakMap<Measurement, Map<string, GrowthOutcome>>();
  return (record, today) => {
    const last = record.measurements[record.measurements.length - 1];
    const sets = known.get(last) ?? new Map<string, GrowthOutcome>();
    known.set(last, sets);
    const fit: typeof fitChild = (input, of) => {
      const set = input.measurements.map((m) => m.id).join(' ');
      const growth = sets.get(set) ?? fitChild(input, of);
      sets.set(set, growth);
      return growth;
    };
    const failed = (error: unknown) => {
      throw error;
    };
    return assessChild(record, { today, model, rules, seed, draws, fit, failed });
  };
}
