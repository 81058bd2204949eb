import { growthInput } from '../../forecast/growth-input.js';
import { recordUntil } from '../../forecast/record-until.js';
import { offsetLearner } from '../../growth/child/learn-population-offset.js';
import type { GrowthModel } from '../../growth/population/growth-model.js';
import type { Store } from '../../store/contract.js';
import type { Clock } from '../clock.js';

const CHUNK = 200;

/**
 * Once a month, so that no date moves from day to day for it: what the clinic's active children say of the model's mean
 * curves. Until enough of them have been measured it is tried before every run of forecasts.
 */
export async function learnPopulation(store: Store, clock: Clock, model: GrowthModel): Promise<void> {
  const today = clock.today();
  const before = await store.populationOffsets.latest(model);
  if (before && before.offsets.length > 0 && before.learnedOn.slice(0, 7) === today.slice(0, 7)) return;
  const ids = await store.caseload.ids();
  const learner = offsetLearner(model);
  for (let part = 0; part * CHUNK < ids.length; part++)
    for (const record of await store.caseload.records(ids.slice(part * CHUNK, (part + 1) * CHUNK)))
      learner.add(growthInput(recordUntil(record, today)));
  await store.populationOffsets.save(model, {
    learnedOn: today,
    children: ids.length,
    offsets: learner.offsets(),
  });
}
