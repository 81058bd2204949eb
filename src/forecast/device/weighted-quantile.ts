/** Quantiles of weighted values (weights sum to 1): the smallest value whose cumulated weight reaches p. */
export function weightedQuantiles(
  values: Float64Array,
  weights: Float64Array,
  ps: readonly number[],
): number[] {
  if (weights.every((w) => w === weights[0])) {
    const sorted = values.slice().sort();
    const n = sorted.length;
    return ps.map((p) => sorted[Math.min(n - 1, Math.max(0, Math.ceil((p - 1e-12) * n) - 1))]);
  }
  const order = Array.from(values.keys()).sort((a, b) => values[a] - values[b]);
  return ps.map((p) => {
    let sum = 0;
    for (const i of order) if ((sum += weights[i]) >= p - 1e-12) return values[i];
    return values[order[order.length - 1]];
  });
}

/** Mean and standard deviation of weighted values (weights sum to 1). */
export function weightedMoments(values: Float64Array, weights: Float64Array): { mean: number; sd: number } {
  let mean = 0;
  for (let i = 0; i < values.length; i++) mean += weights[i] * values[i];
  let variance = 0;
  for (let i = 0; i < values.length; i++) variance += weights[i] * (values[i] - mean) ** 2;
  return { mean, sd: Math.sqrt(variance) };
}
