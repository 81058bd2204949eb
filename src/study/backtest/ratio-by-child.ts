interface OfChild {
  readonly childId: string;
}

/**
 * Sum of one figure over the sum of another, with its standard error when a child's forecasts go together: the ratio
 * estimator over children as primary units (Cochran 1977, Sampling Techniques, 3rd ed., section 6.4 - from memory).
 */
export function ratioByChild<T extends OfChild, B extends OfChild>(
  rows: readonly T[],
  top: (row: T) => number,
  against: readonly B[],
  bottom: (row: B) => number,
): { ratio: number; se: number } {
  const sums = new Map<string, { top: number; bottom: number }>();
  const of = (childId: string) => {
    const sum = sums.get(childId) ?? { top: 0, bottom: 0 };
    sums.set(childId, sum);
    return sum;
  };
  for (const row of rows) of(row.childId).top += top(row);
  for (const row of against) of(row.childId).bottom += bottom(row);
  const children = [...sums.values()];
  const total = children.reduce((t, c) => ({ top: t.top + c.top, bottom: t.bottom + c.bottom }));
  const ratio = total.top / total.bottom;
  const squares = children.reduce((sum, c) => sum + (c.top - ratio * c.bottom) ** 2, 0);
  const k = children.length;
  return { ratio, se: k < 2 ? 0 : Math.sqrt((k / (k - 1)) * squares) / total.bottom };
}
