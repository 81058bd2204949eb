import { floatsOf } from '../../statistics/floats-of.js';
import type { GrowthInput } from '../contract.js';
import type { GrowthModel } from '../population/growth-model.js';
import { isLogMeasure } from '../population/growth-scale.js';
import { candidatesOf } from './candidates-of.js';
import { childPrior } from './child-prior.js';
import { type Candidate, conditionComponents, speaking, weightedComponents } from './components.js';
import type { Conditioned } from './conditioned.js';
import { type Doubt, doubt } from './doubt.js';
import { type Parts, partsOf } from './parts.js';
import type { Reading } from './readings.js';
import { seekTempo } from './seek-tempo.js';

/** A slip found in one look may have hidden where the child's tempo lies: it is looked for again, so often at most. */
const MOST_LOOKS = 3;

/** All components a child may live in, weighed by everything known about it. `seen` must not be empty. */
export function conditionChild(
  input: GrowthInput,
  model: GrowthModel,
  seen: readonly Reading[],
): Conditioned {
  const prior = childPrior(input, model.measures);
  const { list, evidence } = candidatesOf(input, model, seen);
  const apart = new Set<number>();
  let parts = partsOf(seen, apart);
  const { at } = parts.data[0];
  const candidates = list
    .filter(({ submodel }) => speaking(submodel, at))
    .map((c): Candidate => ({ ...c, grid: c.submodel.grid }));
  const telling = tellingOfTempo(seen, model);
  const bones = telling.map((i) => seen[i]);
  let believed: Float64Array = floatsOf(seen, (r) => r.variance);
  for (let look = 1; ; look++) {
    const errors = floatsOf(telling, (i) => believed[i]);
    const seeking = candidates.filter((c) => c.submodel.seeksTempo);
    const sought = seekTempo(seeking, bones, errors, prior, evidence);
    const placed = candidates.flatMap((c) =>
      c.submodel.seeksTempo ? sought.filter((s) => s.submodel === c.submodel) : [c],
    );
    const conditioned = () => doubt(conditionComponents(placed, parts.data, prior, evidence), seen, parts);
    let doubts = conditioned();
    while (doubts.breaksPairsOf !== null) {
      parts = partsOf(seen, apart.add(doubts.breaksPairsOf));
      doubts = conditioned();
    }
    if (look === MOST_LOOKS || sameDoubts(doubts, believed))
      return {
        input,
        model,
        seen,
        prior,
        doubts,
        parts: withDoubt(parts, doubts),
        components: weightedComponents(doubts.components, at),
      };
    believed = doubts.variance;
  }
}

/** The parts as doubt has left them: doubted readings are by themselves, or would have been taken out of their pairs. */
function withDoubt(parts: Parts, { variance }: Doubt): Parts {
  const [common, ...differences] = parts.data;
  const own = Float64Array.from(common.variance);
  variance.forEach((v, i) => {
    if (parts.differenceIn[i] === 0) own[parts.place[i]] = v;
  });
  return { ...parts, data: [{ ...common, variance: own }, ...differences] };
}

/** Bones say where a child's tempo is; girths and weight add little but work, unless there is little else. */
function tellingOfTempo(seen: readonly Reading[], model: GrowthModel): number[] {
  const all = seen.map((_, i) => i);
  const bones = all.filter((i) => !isLogMeasure(model.measures[seen[i].measure]));
  return bones.length >= FEWEST_BONES ? bones : all;
}
const FEWEST_BONES = 6;

/** The readings now doubted are those that were doubted when the tempo was looked for. */
function sameDoubts({ variance }: Doubt, believed: Float64Array): boolean {
  return variance.every((v, i) => Math.abs(Math.log(v / believed[i])) < Math.LN2);
}
