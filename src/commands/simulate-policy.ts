import { loadGrowthModel } from '../growth/population/model.js';
import { loadRules } from '../rules/load-rules.js';
import { randomStream } from '../statistics/random-stream.js';
import { hash } from '../study/backtest/clinic-noise.js';
import type { RecallPolicy, SimulationError, World } from '../study/simulate/contract.js';
import { simulateCaseload } from '../study/simulate/simulate-caseload.js';
import { simulationAssessor } from '../study/simulate/simulation-assessor.js';
import { type PolicySummary, summarisePolicy } from '../study/simulate/summarise-policies.js';
import { simulatedWorld } from './simulated-worlds.js';

export interface SimulationAsked {
  readonly children: number;
  readonly world: World;
}

/** Futures a forecast is made of: a quarter of what a clinic's forecasts have. */
const DRAWS = 128;

/** Lives through policies one after another in a world that is set up once; none learns from another. */
export function policyRunner({
  children: count,
  world,
}: SimulationAsked): (policy: RecallPolicy) => Promise<PolicySummary> {
  const { seed, start } = world;
  const children = simulatedWorld(count, start, seed);
  const assess = simulationAssessor(loadGrowthModel(), loadRules(), seed, DRAWS);
  const error: SimulationError = (childId, what, day) =>
    randomStream(hash(`${seed}|${childId}|${what}|${day}`)).normal();
  return async (policy) =>
    summarisePolicy(await simulateCaseload(children, policy, world, assess, error), seed);
}
