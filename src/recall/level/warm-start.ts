import type { BuiltProgramme } from './build-programme.js';
import type { CompactProblem } from './compact-problem.js';
import type { Basis } from './highs-solver.js';

// HiGHS's codes of where a variable or a row stands.
const AT_LOWER = 0;
const BASIC = 1;
const AT_UPPER = 2;

/** Rows of the requests come first; those of capacity follow and are the same in every round. */
const capacityRows = (built: BuiltProgramme): number => built.programme.rows - built.open.length;

/**
 * The basis of a programme after one of its rounds, for the next: a request that was settled then stands where it stood,
 * and columns that are new wait at nothing.
 */
export function carriedBasis(
  p: CompactProblem,
  before: BuiltProgramme,
  basis: Basis,
  now: BuiltProgramme,
): Basis {
  const key = (i: number, w: number) => i * (p.weeks + 1) + w;
  const known = new Map(before.xRequest.map((i, c) => [key(i, before.xWeek[c]), basis.colStatus[c]]));
  const rows = new Map(before.open.map((i, r) => [i, basis.rowStatus[r]]));
  const colStatus = new Int32Array(now.programme.columns);
  now.xRequest.forEach((i, c) => {
    const settledBefore = !rows.has(i) && (c === 0 || now.xRequest[c - 1] !== i);
    colStatus[c] = settledBefore ? BASIC : (known.get(key(i, now.xWeek[c])) ?? AT_LOWER);
  });
  colStatus.set(basis.colStatus.subarray(before.xRequest.length), now.xRequest.length);
  const rowStatus = new Int32Array(now.programme.rows);
  now.open.forEach((i, r) => {
    rowStatus[r] = rows.get(i) ?? AT_LOWER;
  });
  rowStatus.set(basis.rowStatus.subarray(before.open.length), now.open.length);
  return { colStatus, rowStatus };
}

/**
 * A basis that puts every request into the week asked for, over the limit where it must: feasible whatever the
 * capacity, and near the best plan where those weeks are last week's.
 */
export function basisOfWeeks(p: CompactProblem, built: BuiltProgramme, weekOf: (i: number) => number): Basis {
  const { programme, open, xRequest, xWeek, ySession } = built;
  const colStatus = new Int32Array(programme.columns);
  const rowStatus = new Int32Array(programme.rows);
  const links = p.sessionsOfType.length * p.weeks;
  const jobRows = open.length + capacityRows(built) - p.jobLimits.length * p.weeks;
  const used = new Float64Array(p.jobLimits.length * p.weeks);
  const seen = new Set<number>();
  xRequest.forEach((i, c) => {
    if (xWeek[c] !== weekOf(i) || seen.has(i)) return;
    seen.add(i);
    colStatus[c] = BASIC;
    for (const j of p.jobs[i]) if (xWeek[c] < p.weeks) used[j.limit * p.weeks + xWeek[c]] += j.count;
  });
  // Slots over the limit carry every link; sessions stand empty until the solver fills them.
  const over = xRequest.length + ySession.length;
  colStatus.fill(BASIC, over, over + links);
  rowStatus.fill(AT_UPPER, open.length, open.length + links);
  rowStatus.fill(BASIC, open.length + links, jobRows);
  used.forEach((jobs, k) => {
    const isOver = jobs > programme.rowUpper[jobRows + k];
    colStatus[over + links + k] = isOver ? BASIC : AT_LOWER;
    rowStatus[jobRows + k] = isOver ? AT_UPPER : BASIC;
  });
  return { colStatus, rowStatus };
}
