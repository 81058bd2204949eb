import type { ChildPosterior, GrowthInput } from '../growth/contract.js';
import type { GrowthModel } from '../growth/population/growth-model.js';
import { fitChild } from '../growth/prediction/fit-child.js';
import { dayNumber, type IsoDate } from '../records/dates.js';

/**
 * The growth of a child that charts and what-ifs are made of; null without enough readings, or where the sums cannot take
 * one of them. The assessment says so in words; what is drawn goes without curves.
 */
export function growthToDraw(input: GrowthInput, model: GrowthModel, today: IsoDate): ChildPosterior | null {
  try {
    const outcome = fitChild(input, model);
    if (outcome.kind !== 'posterior') return null;
    const { mean, sd } = outcome.posterior.predict({ measure: 'stature', side: 'none' }, [dayNumber(today)]);
    return Number.isFinite(mean[0] + sd[0]) ? outcome.posterior : null;
  } catch {
    return null;
  }
}
