/** The nearest curve in least squares that never falls: neighbours that fall are pooled (Ayer et al. 1955, Ann Math Stat 26:641). */
export function rising(values: ArrayLike<number>): Float64Array {
  const sums: number[] = [];
  const counts: number[] = [];
  for (let i = 0; i < values.length; i++) {
    let [sum, count] = [values[i], 1];
    while (sums.length > 0 && sums[sums.length - 1] / counts[counts.length - 1] > sum / count) {
      sum += sums.pop() as number;
      count += counts.pop() as number;
    }
    sums.push(sum);
    counts.push(count);
  }
  const out = new Float64Array(values.length);
  let at = 0;
  sums.forEach((sum, k) => {
    out.fill(sum / counts[k], at, at + counts[k]);
    at += counts[k];
  });
  return out;
}
