import type { Predictive } from './forecaster.js';

/** Levels at which a predictive distribution is read: midpoints of twenty equal shares. */
const SHARES = 20;
const levels: readonly number[] = Array.from({ length: SHARES }, (_, k) => (k + 0.5) / SHARES);

/**
 * How good one forecast was. Continuous ranked probability score (Matheson & Winkler 1976, Management Science
 * 22:1087) as the mean quantile loss over twenty levels (Laio & Tamea 2007, Hydrol Earth Syst Sci 11:1267):
 * the same levels for every method.
 */
export function score(predictive: Predictive, truthMm: number) {
  let loss = 0;
  for (const level of levels) {
    const q = predictive.quantile(level);
    loss += (truthMm - q) * (level - (truthMm < q ? 1 : 0));
  }
  const inside = (share: number) =>
    truthMm >= predictive.quantile((1 - share) / 2) && truthMm <= predictive.quantile((1 + share) / 2);
  return {
    // Point forecast less truth.
    errorMm: predictive.pointMm - truthMm,
    crpsMm: (2 * loss) / SHARES,
    in80: inside(0.8),
    in90: inside(0.9),
  };
}
