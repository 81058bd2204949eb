import type { CompactProblem } from './compact-problem.js';
import type { Programme, Solution } from './highs-solver.js';

/**
 * The assignment programme over some of the columns.
 *   x[i,w]  request i in week w                        sum over w of x[i,w] = 1
 *   y[t,s]  slots of session s used by type t          sum over t of y[t,s] <= slots of s
 *   o[t,w]  slots over the limit for type t in week w  slots used by t in w = y of its sessions in w + o[t,w]
 *   u[g,w]  jobs over workshop limit g in week w       jobs of g in w <= limit + u[g,w]
 * Rows: requests, then links (t,w), then sessions, then workshop limits (g,w).
 * A request with one column left is settled: its use of capacity moves to the right-hand sides.
 */
export interface BuiltProgramme {
  readonly programme: Programme;
  /** Request and week of each x column. */
  readonly xRequest: readonly number[];
  readonly xWeek: readonly number[];
  /** Requests with a row, in the order of the rows; and those that have none. */
  readonly open: readonly number[];
  readonly settled: readonly number[];
  readonly settledCost: number;
  /** Type and session of each y column, which follow the x columns; then o[t,w], then u[g,w], both week by week. */
  readonly yType: readonly number[];
  readonly ySession: readonly number[];
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: rows and columns of one programme, in the order in which the solver has them
export function buildProgramme(
  p: CompactProblem,
  columnsOf: (i: number) => readonly number[],
  /** Capacity multiplied by this: for a sample of the requests. */
  scale = 1,
  chosen: readonly number[] = p.requests.map((_, i) => i),
): BuiltProgramme {
  const types = p.sessionsOfType.length;
  const groups = p.jobLimits.length;
  const W = p.weeks;
  const open = chosen.filter((i) => columnsOf(i).length > 1);
  const settled = chosen.filter((i) => columnsOf(i).length === 1);
  const linkRow = (t: number, w: number) => open.length + t * W + w;
  const sessionRow = (s: number) => open.length + types * W + s;
  const jobRow = (g: number, w: number) => open.length + types * W + p.sessionSlots.length + g * W + w;
  const rows = open.length + types * W + p.sessionSlots.length + groups * W;
  const rowLower = new Float64Array(rows).fill(Number.NEGATIVE_INFINITY);
  const rowUpper = new Float64Array(rows).fill(0);
  open.forEach((_, r) => {
    rowLower[r] = rowUpper[r] = 1;
  });
  p.sessionSlots.forEach((slots, s) => {
    rowUpper[sessionRow(s)] = slots * scale;
  });
  p.jobLimits.forEach((limits, g) => {
    for (let w = 0; w < W; w++) rowUpper[jobRow(g, w)] = limits[w] * scale;
  });

  const cost: number[] = [];
  const starts: number[] = [];
  const indices: number[] = [];
  const values: number[] = [];
  const column = (c: number, entries: readonly (readonly [number, number])[]) => {
    starts.push(indices.length);
    cost.push(c);
    for (const [row, value] of entries) {
      indices.push(row);
      values.push(value);
    }
  };
  const use = (i: number, w: number): [number, number][] =>
    w === W
      ? []
      : [
          ...(p.slots[i] > 0 ? [[linkRow(p.type[i], w), p.slots[i]] as [number, number]] : []),
          ...p.jobs[i].map((j) => [jobRow(j.limit, w), j.count] as [number, number]),
        ];
  let settledCost = 0;
  for (const i of settled) {
    const w = columnsOf(i)[0];
    settledCost += p.costs[i][w];
    for (const [row, amount] of use(i, w)) rowUpper[row] -= amount;
  }
  const xRequest: number[] = [];
  const xWeek: number[] = [];
  open.forEach((i, r) => {
    for (const w of columnsOf(i)) {
      xRequest.push(i);
      xWeek.push(w);
      column(p.costs[i][w], [[r, 1], ...use(i, w)]);
    }
  });
  const yType: number[] = [];
  const ySession: number[] = [];
  p.sessionsOfType.forEach((sessions, t) => {
    for (const s of sessions) {
      yType.push(t);
      ySession.push(s);
      column(0, [
        [linkRow(t, p.sessionWeek[s]), -1],
        [sessionRow(s), 1],
      ]);
    }
  });
  for (let t = 0; t < types; t++) {
    for (let w = 0; w < W; w++) column(p.overtimeSlotCost, [[linkRow(t, w), -1]]);
  }
  for (let g = 0; g < groups; g++) {
    for (let w = 0; w < W; w++) column(p.overtimeJobCost, [[jobRow(g, w), -1]]);
  }
  starts.push(indices.length);
  const programme: Programme = {
    columns: cost.length,
    rows,
    cost: Float64Array.from(cost),
    upper: new Float64Array(cost.length).fill(Number.POSITIVE_INFINITY),
    rowLower,
    rowUpper,
    starts: Int32Array.from(starts),
    indices: Int32Array.from(indices),
    values: Float64Array.from(values),
  };
  return { programme, xRequest, xWeek, open, settled, settledCost, yType, ySession };
}

/** What a unit of each capacity is worth, read from the prices of a solved programme: all >= 0, in weighted days. */
export interface Prices {
  /** slot[t][w]: one slot for type t in week w. */
  readonly slot: readonly Float64Array[];
  /** session[s]. */
  readonly session: Float64Array;
  /** job[g][w]. */
  readonly job: readonly Float64Array[];
}

export function readPrices(p: CompactProblem, built: BuiltProgramme, solution: Solution): Prices {
  const W = p.weeks;
  const types = p.sessionsOfType.length;
  const sessions = p.sessionSlots.length;
  const first = built.programme.rows - (types * W + sessions + p.jobLimits.length * W);
  const at = (from: number, count: number) =>
    Float64Array.from({ length: count }, (_, k) => Math.max(0, -solution.rowPrice[first + from + k]));
  return {
    slot: Array.from({ length: types }, (_, t) => at(t * W, W)),
    session: at(types * W, sessions),
    job: p.jobLimits.map((_, g) => at(types * W + sessions + g * W, W)),
  };
}
