/** Below this age a month changes as much as a year does later: the axis is stretched. */
const INFANCY_ENDS = 2;
const STRETCH = INFANCY_ENDS + 0.75;
/** Above this age growth runs out, and the axis with it. */
const GROWTH_ENDS = 17;
const RUNS_OUT = 1.5;

/**
 * The axis on which L, M and S are smooth: age itself while a child grows, stretched in infancy, compressed
 * after growth; without a kink. Plain age was chosen on the records: fitted to one half and scored on the
 * other it beat its logarithm and its square root (source.md of us-children-1977).
 */
export function growthAxis(ageYears: number): number {
  if (ageYears < INFANCY_ENDS)
    return INFANCY_ENDS + STRETCH * Math.log1p((ageYears - INFANCY_ENDS) / STRETCH);
  if (ageYears > GROWTH_ENDS) return GROWTH_ENDS - RUNS_OUT * Math.expm1((GROWTH_ENDS - ageYears) / RUNS_OUT);
  return ageYears;
}

/** The age at a place on the axis: ageAt(growthAxis(7)) = 7. */
export function ageAt(x: number): number {
  if (x < INFANCY_ENDS) return INFANCY_ENDS + STRETCH * Math.expm1((x - INFANCY_ENDS) / STRETCH);
  if (x > GROWTH_ENDS) return GROWTH_ENDS - RUNS_OUT * Math.log1p((GROWTH_ENDS - x) / RUNS_OUT);
  return x;
}
