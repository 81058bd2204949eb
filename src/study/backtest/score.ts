import type { Predictive } from './forecaster.js';

/** Levels at which a predictive distribution is read: midpoints of twenty equal shares. */
const SHARES = 20;
export const levels: readonly number[] = Array.from({ length: SHARES }, (_, k) => (k + 0.5) / SHARES);

export interface Score {
  /** Point forecast less truth, mm. */
  readonly errorMm: number;
  readonly crpsMm: number;
  readonly in80: boolean;
  readonly in90: boolean;
  /** Probability integral transform: the share of the predictive distribution below the truth. */
  readonly pit: number;
}

/**
 * How good one forecast was. Continuous ranked probability score (Matheson & Winkler 1976, Management Science
 * 22:1087) as the mean quantile loss over twenty levels (Laio & Tamea 2007, Hydrol Earth Syst Sci 11:1267):
 * the same levels for every method.
 */
export function score(predictive: Predictive, truthMm: number): Score {
  const at = levels.map((p) => predictive.quantile(p));
  let loss = 0;
  at.forEach((q, k) => {
    loss += (truthMm - q) * (levels[k] - (truthMm < q ? 1 : 0));
  });
  const inside = (share: number) =>
    truthMm >= predictive.quantile((1 - share) / 2) && truthMm <= predictive.quantile((1 + share) / 2);
  return {
    errorMm: predictive.pointMm - truthMm,
    crpsMm: (2 * loss) / SHARES,
    in80: inside(0.8),
    in90: inside(0.9),
    pit: shareBelow(at, truthMm),
  };
}

/** Share below a value, straight between the levels; within the outermost half shares it is held at their middle. */
function shareBelow(quantiles: readonly number[], value: number): number {
  if (value <= quantiles[0]) return 0.25 / SHARES;
  if (value >= quantiles[SHARES - 1]) return 1 - 0.25 / SHARES;
  const above = quantiles.findIndex((q) => q > value);
  const low = quantiles[above - 1];
  return levels[above - 1] + (value - low) / (quantiles[above] - low) / SHARES;
}
