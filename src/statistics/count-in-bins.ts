export interface Bin {
  readonly from: number;
  /** Not in the bin. */
  readonly to: number;
  readonly count: number;
}

/** Values counted in neighbouring bins `step` wide, one of them beginning at 0, from the least value to the most. */
export function countInBins(values: readonly number[], step: number): Bin[] {
  if (values.length === 0) return [];
  const bin = (v: number) => Math.floor(v / step);
  const first = bin(Math.min(...values));
  const counts = new Array<number>(bin(Math.max(...values)) - first + 1).fill(0);
  for (const v of values) counts[bin(v) - first] += 1;
  return counts.map((count, i) => ({ from: (first + i) * step, to: (first + i + 1) * step, count }));
}
