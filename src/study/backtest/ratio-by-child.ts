/**
 * Sum of one figure over the sum of another (their number: a mean), with its standard error when a child's forecasts go together: the ratio
 * estimator over children as primary units (Cochran 1977, Sampling Techniques, 3rd ed., section 6.4 - from memory).
 */
export function ratioByChild<T extends { readonly childId: string }>(
  rows: readonly T[],
  top: (row: T) => number,
  bottom: (row: T) => number = () => 1,
): { ratio: number; se: number } {
  const sums = new Map<string, { top: number; bottom: number }>();
  for (const row of rows) {
    const sum = sums.get(row.childId) ?? { top: 0, bottom: 0 };
    sums.set(row.childId, { top: sum.top + top(row), bottom: sum.bottom + bottom(row) });
  }
  const children = [...sums.values()];
  const total = children.reduce((t, c) => ({ top: t.top + c.top, bottom: t.bottom + c.bottom }));
  const ratio = total.top / total.bottom;
  const squares = children.reduce((sum, c) => sum + (c.top - ratio * c.bottom) ** 2, 0);
  const k = children.length;
  return { ratio, se: k < 2 ? 0 : Math.sqrt((k / (k - 1)) * squares) / total.bottom };
}
