import type { GrowthInput } from '../contract.js';
import type { GrowthModel } from '../population/growth-model.js';
import { isLogMeasure } from '../population/growth-scale.js';
import { type Candidates, candidatesOf } from './candidates-of.js';
import { childPrior } from './child-prior.js';
import { speaking, weightedComponents } from './components.js';
import { condenseOld } from './condense-old.js';
import type { Conditioned } from './conditioned.js';
import { type Doubt, doubt } from './doubt.js';
import { type Parts, partsOf } from './parts.js';
import type { Reading } from './readings.js';
import { type Sought, seekTempo } from './seek-tempo.js';
import type { Component } from './trial.js';
import { type Components, conditionAt, type Trial, trialOf } from './trial.js';

/** A slip found in one look may have hidden where the child's tempo lies: it is looked for again, so often at most. */
const MOST_LOOKS = 3;

/** Readings of the last years are taken one by one; fewer years where only the tempo is sought. */
const RECENT_YEARS = 2;
const OUTLINE_YEARS = 1;

/** All components a child may live in, weighed by everything known about it. `all` must not be empty. */
export function conditionChild(input: GrowthInput, model: GrowthModel, all: readonly Reading[]): Conditioned {
  const candidates = candidatesOf(input, model, all);
  const few = condenseOld(all, candidates.list[0].submodel.curves, RECENT_YEARS);
  const fitted = conditionOn(input, model, few, candidates);
  // Which of a season's readings is the slip is for each of them to say.
  const slips = few !== all && fitted.doubts.probability.some((p, i) => p > 0 && !all.includes(few[i]));
  return slips ? conditionOn(input, model, all, candidates) : fitted;
}

function conditionOn(
  input: GrowthInput,
  model: GrowthModel,
  seen: readonly Reading[],
  { list, evidence }: Candidates,
): Conditioned {
  const prior = childPrior(input, model.measures);
  let parts = partsOf(seen);
  let believed: Float64Array = Float64Array.from(seen, (r) => r.variance);
  const { at } = parts.data[0];
  const candidates = list.filter(({ submodel }) => speaking(submodel, at));
  const put = ({ data }: Parts) => candidates.map((c) => trialOf(c, data, prior));
  const seeking = candidates.filter(({ submodel }) => submodel.seeksTempo);
  const telling = tellingOfTempo(seen, model);
  /** The outline of what the bones did shows where the tempo lies, at a tenth of the work. */
  const sought = () => {
    const outline = telling.map((i): Reading => ({ ...seen[i], variance: believed[i] }));
    const [common] = partsOf(condenseOld(outline, list[0].submodel.curves, OUTLINE_YEARS)).data;
    return seekTempo(
      seeking.map((c) => trialOf(c, [common], prior)),
      evidence,
    );
  };
  const conditioned = (trials: readonly Trial[], at: readonly Sought[]) =>
    together(
      trials.map((trial) => (from) => {
        const { submodel, sex } = trial;
        const own = at.filter((s) => s.submodel === submodel && s.sex === sex).flatMap((s) => s.grid);
        return conditionAt(trial, submodel.seeksTempo ? own : submodel.grid, evidence, from);
      }),
    );
  let trials = put(parts);
  for (let look = 1; ; look++) {
    const tempos = sought();
    let doubts = doubt(conditioned(trials, tempos), seen, parts);
    if (doubts.breaksPair) {
      parts = partsOf(seen, true);
      trials = put(parts);
      doubts = doubt(conditioned(trials, tempos), seen, parts);
    }
    if (look === MOST_LOOKS || sameDoubts(doubts, believed))
      return {
        input,
        model,
        seen,
        prior,
        doubts,
        parts: withVariance(parts, doubts.variance),
        components: weightedComponents(doubts.components, at),
      };
    believed = doubts.variance;
  }
}

/** Components of all trials, their factors side by side. */
function together(conditions: readonly ((from: number) => Components)[]): Components {
  const components: Component[] = [];
  const factors: (readonly Float64Array[])[] = [];
  for (const condition of conditions) {
    const own = condition(factors.length);
    components.push(...own.components);
    own.factors.forEach((f, index) => {
      factors[index] = f;
    });
  }
  return { components, factors };
}

/** The parts as doubt has left them: doubted readings are by themselves, or would have been taken out of their pairs. */
function withVariance(parts: Parts, variance: Float64Array): Parts {
  const [common, ...differences] = parts.data;
  const own = Float64Array.from(common.variance);
  variance.forEach((v, i) => {
    if (parts.differenceIn[i] === 0) own[parts.place[i]] = v;
  });
  return { ...parts, data: [{ ...common, variance: own }, ...differences] };
}

/** The readings now doubted are those that were doubted when the tempo was looked for. */
function sameDoubts({ variance }: Doubt, believed: Float64Array): boolean {
  return variance.every((v, i) => Math.abs(Math.log(v / believed[i])) < Math.LN2);
}

/** Bones say where a child's tempo is; girths and weight add little but work, unless there is little else. */
function tellingOfTempo(seen: readonly Reading[], model: GrowthModel): number[] {
  const all = seen.map((_, i) => i);
  const bones = all.filter((i) => !isLogMeasure(model.measures[seen[i].measure]));
  return bones.length >= FEWEST_BONES ? bones : all;
}
const FEWEST_BONES = 6;
