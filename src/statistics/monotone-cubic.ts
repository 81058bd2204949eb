/**
 * A smooth curve through given points that never overshoots them: where the points rise it rises.
 * Cubic Hermite with the limited slopes of Fritsch & Butland (1984), SIAM J Sci Stat Comput 5:300.
 * `x` strictly increasing, at least two points; outside the first and last point the end value is held.
 */
export function monotoneCubic(x: readonly number[], y: readonly number[]): (at: number) => number {
  const n = x.length;
  const width = x.slice(1).map((v, i) => v - x[i]);
  const chord = width.map((h, i) => (y[i + 1] - y[i]) / h);
  const slope = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    if (chord[i - 1] * chord[i] <= 0) continue;
    const a = 2 * width[i] + width[i - 1];
    const b = width[i] + 2 * width[i - 1];
    slope[i] = (a + b) / (a / chord[i - 1] + b / chord[i]);
  }
  slope[0] = chord[0];
  slope[n - 1] = chord[n - 2];
  return (at) => {
    if (at <= x[0]) return y[0];
    if (at >= x[n - 1]) return y[n - 1];
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const mid = (low + high) >> 1;
      if (x[mid] <= at) low = mid;
      else high = mid;
    }
    const h = width[low];
    const t = (at - x[low]) / h;
    const u = 1 - t;
    return (
      u * u * ((1 + 2 * t) * y[low] + t * h * slope[low]) +
      t * t * ((1 + 2 * u) * y[high] - u * h * slope[high])
    );
  };
}
