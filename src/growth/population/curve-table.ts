/** First and last log-age of every tabulated curve: a month before the due date to 23 years. */
export const TABLE_FROM = Math.log(0.66);
export const TABLE_TO = Math.log(23.75);
export const TABLE_SIZE = 720;
const STEP = (TABLE_TO - TABLE_FROM) / (TABLE_SIZE - 1);

/** A curve over log-age, tabulated so finely that a straight line between entries errs by less than 0.02 mm. */
export type CurveTable = Float64Array;

export const tableLogAge = (i: number): number => TABLE_FROM + i * STEP;

/** The entry nearest to a log-age. */
export const tableIndex = (x: number): number =>
  Math.min(TABLE_SIZE - 1, Math.max(0, Math.round((x - TABLE_FROM) / STEP)));

export function tabulate(curve: (x: number) => number): CurveTable {
  return Float64Array.from({ length: TABLE_SIZE }, (_, i) => curve(tableLogAge(i)));
}

/** The curve at a log-age; the end values are held outside. */
export function readTable(table: CurveTable, x: number): number {
  const at = (x - TABLE_FROM) / STEP;
  if (at <= 0) return table[0];
  if (at >= TABLE_SIZE - 1) return table[TABLE_SIZE - 1];
  const i = Math.floor(at);
  const f = at - i;
  return table[i] * (1 - f) + table[i + 1] * f;
}
