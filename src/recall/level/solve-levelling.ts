import { type BuiltProgramme, buildProgramme, type Prices, readPrices } from './build-programme.js';
import type { CompactProblem } from './compact-problem.js';
import { type Basis, type Solution, solveProgramme } from './highs-solver.js';
import { basisOfWeeks, carriedBasis } from './warm-start.js';

export interface Levelled {
  /** Week of each request; problem.weeks means after the last. */
  readonly week: readonly number[];
  readonly prices: Prices;
  readonly cost: number;
  readonly lowerBound: number;
  readonly columns: number;
  readonly rounds: number;
}

/** Up to this many request-week columns the whole programme is solved at once. */
const WHOLE_PROGRAMME_COLUMNS = 12_000;
const SAMPLE_COLUMNS = 12_000;
/** Most columns of the second whole-number search: those of least reduced cost. */
const WHOLE_NUMBER_COLUMNS = 5_000;
const COLUMNS_AT_FIRST = 3;
/** First columns cost at most this much more than the request's cheapest at the sample's prices, weighted days. */
const FIRST_BAND = 1;
/** Part of the allowed gap that the linear programme may leave. */
const LINEAR_SHARE = 0.5;
const EPSILON = 1e-6;

/**
 * Levels a caseload: the linear programme, then whole numbers where its answer has fractions (seldom: without workshop
 * limits it is a transportation problem, whose vertices are whole).
 * A large caseload is solved over the columns that can matter: prices of capacity from an evenly spaced sample choose the
 * first columns; after each solve every column left out is priced, and any that would improve the plan comes in,
 * until what they could improve together is a part of the gap allowed (column generation, Dantzig & Wolfe 1960; the
 * sum of their reduced costs bounds it, Lasdon 1970 - both from memory). The lower bound is the whole programme's.
 */
export async function solveLevelling(p: CompactProblem, mipGap: number): Promise<Levelled> {
  const n = p.requests.length;
  const possible = p.costs.map((c) => [...c.keys()].filter((w) => Number.isFinite(c[w])));
  const { built, solution, prices, columns, rounds, lowerBound } = await solveLinear(p, possible, mipGap);
  const linear = solution.objective + built.settledCost;
  const result = { prices, rounds, columns: columns.reduce((s, c) => s + c.length, 0) };
  const week = new Array<number>(n).fill(-1);
  for (const i of built.settled) week[i] = columns[i][0];
  if (solution.x.every(isWhole)) {
    readWeeks(built, solution, week);
    return { ...result, week, cost: linear, lowerBound };
  }
  // First what the linear programme left in fractions, the rest held where it is ...
  readWeeks(built, solution, week);
  const { cost } = await solveWhole(p, (i) => (week[i] < 0 ? possible[i] : [week[i]]), mipGap, week);
  // ... and where that is not good enough, every column that a better plan could use: one whose reduced cost is above
  // the gap cannot be in it (reduced-cost fixing, as in any textbook of integer programming).
  if (cost - lowerBound > mipGap * Math.max(1, cost)) {
    const reduced = possible.map((weeks, i) => {
      const priced = weeks.map((w) => pricedCost(p, prices, i, w));
      const least = priced.reduce((a, b) => Math.min(a, b));
      return priced.map((c) => c - least);
    });
    const all = Float64Array.from(reduced.flat()).sort();
    const most = Math.min(cost - lowerBound, all[Math.min(all.length, WHOLE_NUMBER_COLUMNS) - 1]) + EPSILON;
    const useful = possible.map((weeks, i) => weeks.filter((w, k) => w === week[i] || reduced[i][k] <= most));
    const better = [...week];
    const found = await solveWhole(p, (i) => useful[i], mipGap, better);
    // With every useful column in, those left out are in no plan cheaper than `cost`: the search's bound holds for all.
    const complete = most > Math.min(cost - lowerBound, all[all.length - 1]);
    const bound = complete ? Math.max(lowerBound, Math.min(found.bound, cost)) : lowerBound;
    if (found.cost < cost) return { ...result, week: better, cost: found.cost, lowerBound: bound };
    return { ...result, week, cost, lowerBound: bound };
  }
  return { ...result, week, cost, lowerBound };
}

interface LinearPlan {
  readonly built: BuiltProgramme;
  readonly solution: Solution;
  readonly prices: Prices;
  readonly columns: readonly (readonly number[])[];
  readonly rounds: number;
  readonly lowerBound: number;
}

/** The linear programme: whole where it is small, by columns that come in round by round where it is large. */
async function solveLinear(
  p: CompactProblem,
  possible: readonly number[][],
  mipGap: number,
): Promise<LinearPlan> {
  const small = p.requests.length * (p.weeks + 1) <= WHOLE_PROGRAMME_COLUMNS;
  const columns = small ? [...possible] : await firstColumns(p, possible);
  let last: { built: BuiltProgramme; basis: Basis } | null = null;
  for (let rounds = 1; ; rounds++) {
    const built = buildProgramme(p, (i) => columns[i]);
    const start = small ? undefined : startOf(p, last, built, columns);
    const solution = await solveProgramme(built.programme, { start });
    const prices = readPrices(p, built, solution);
    const missing = addImproving(p, possible, columns, prices);
    const objective = solution.objective + built.settledCost;
    if (missing <= (small ? 0 : mipGap * Math.max(1, objective) * LINEAR_SHARE))
      return { built, solution, prices, columns, rounds, lowerBound: objective - missing };
    last = solution.basis && { built, basis: solution.basis };
  }
}

/** The first round begins with the plan before, or where it is cheapest; each later one where the one before it ended. */
function startOf(
  p: CompactProblem,
  last: { built: BuiltProgramme; basis: Basis } | null,
  built: BuiltProgramme,
  columns: readonly (readonly number[])[],
): Basis {
  if (last) return carriedBasis(p, last.built, last.basis, built);
  return basisOfWeeks(p, built, (i) => {
    const before = p.previousWeek[i];
    return columns[i].includes(before) ? before : columns[i][0];
  });
}

/** Best whole-number plan over the columns allowed; writes its weeks and gives its cost. */
async function solveWhole(
  p: CompactProblem,
  columnsOf: (i: number) => readonly number[],
  mipGap: number,
  week: number[],
): Promise<{ cost: number; bound: number }> {
  const allowed = p.requests.map((_, i) => columnsOf(i));
  const built = buildProgramme(p, (i) => allowed[i]);
  const best = await solveProgramme(built.programme, { whole: { mipGap } });
  for (const i of built.settled) week[i] = allowed[i][0];
  readWeeks(built, best, week);
  return { cost: best.objective + built.settledCost, bound: best.bound + built.settledCost };
}

const isWhole = (x: number) => Math.abs(x - Math.round(x)) < EPSILON;

/** Weeks of the requests whose column is at one; the others keep what they had. */
function readWeeks(built: BuiltProgramme, solution: Solution, week: number[]): void {
  built.xRequest.forEach((i, k) => {
    if (solution.x[k] > 1 - EPSILON) week[i] = built.xWeek[k];
  });
}

/** Cost of a request in a week with what its slots and jobs are worth to others. */
export function pricedCost(p: CompactProblem, prices: Prices, i: number, w: number): number {
  let cost = p.costs[i][w];
  if (w === p.weeks) return cost;
  cost += p.slots[i] * prices.slot[p.type[i]][w];
  for (const j of p.jobs[i]) cost += j.count * prices.job[j.limit][w];
  return cost;
}

async function firstColumns(p: CompactProblem, possible: readonly number[][]): Promise<number[][]> {
  const size = Math.floor(SAMPLE_COLUMNS / (p.weeks + 1));
  // Evenly spaced over the order of due dates, so that the sample has the caseload's seasons.
  const byDue = p.requests
    .map((r, i) => ({ due: r.latestSafe, i }))
    .sort((a, b) => a.due.localeCompare(b.due) || a.i - b.i);
  const sample = Array.from(
    { length: size },
    (_, k) => byDue[Math.floor(((k + 0.5) * byDue.length) / size)].i,
  );
  const built = buildProgramme(p, (i) => possible[i], size / p.requests.length, sample);
  const prices = readPrices(p, built, await solveProgramme(built.programme));
  return possible.map((weeks, i) =>
    weeks
      .map((w) => ({ w, cost: pricedCost(p, prices, i, w) }))
      .sort((a, b) => a.cost - b.cost)
      .slice(0, COLUMNS_AT_FIRST)
      .filter((c, _, all) => c.cost <= all[0].cost + FIRST_BAND)
      .map((c) => c.w),
  );
}

/** Adds each request's best column left out, where it beats all those in; the sum of what they undercut by. */
function addImproving(
  p: CompactProblem,
  possible: readonly number[][],
  columns: number[][],
  prices: Prices,
): number {
  let missing = 0;
  for (let i = 0; i < possible.length; i++) {
    if (columns[i].length === possible[i].length) continue;
    let inside = Number.POSITIVE_INFINITY;
    for (const w of columns[i]) inside = Math.min(inside, pricedCost(p, prices, i, w));
    let best = -1;
    let least = inside - EPSILON;
    for (const w of possible[i]) {
      const cost = pricedCost(p, prices, i, w);
      if (cost < least && !columns[i].includes(w)) {
        least = cost;
        best = w;
      }
    }
    if (best >= 0) {
      columns[i] = [...columns[i], best];
      missing += inside - least;
    }
  }
  return missing;
}
