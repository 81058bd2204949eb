import { assessChild } from '../../forecast/assess-child.js';
import type { GrowthOutcome } from '../../growth/contract.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import { fitChild } from '../../growth/prediction/fit-child.js';
import type { Measurement } from '../../records/records.js';
import type { FitRules } from '../../rules/fit-rule.js';
import type { SimulationAssessor } from './contract.js';

/**
 * The product's own assessment. A visit asks several times with one set of readings, and rows of a record are only ever
 * added: the last reading stands for all before it, and growth is fitted once to each set. What cannot be assessed ends the run.
 */
export function simulationAssessor(
  model: GrowthModel,
  rules: FitRules,
  seed: number,
  draws: number,
): SimulationAssessor {
  const known = new WeakMap<Measurement, GrowthOutcome>();
  return (record, today) => {
    const last = record.measurements[record.measurements.length - 1];
    const fit: typeof fitChild = (input, of) => {
      const growth = known.get(last) ?? fitChild(input, of);
      known.set(last, growth);
      return growth;
    };
    const failed = (error: unknown) => {
      throw error;
    };
    return assessChild(record, { today, model, rules, seed, draws, fit, failed });
  };
}
