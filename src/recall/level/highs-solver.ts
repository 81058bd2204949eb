import { createRequire } from 'node:module';
import type { BasisInput, Highs, ModelData } from 'highs';
import { DoorpostError } from '../../errors.js';

/** A sparse programme, columns one after another: minimise cost.x, rows between bounds, x >= 0. */
export interface Programme {
  readonly columns: number;
  readonly rows: number;
  readonly cost: Float64Array;
  readonly upper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
}

/** Which variables and rows carry a simplex solution, by HiGHS's codes. */
export interface Basis {
  readonly colStatus: Int32Array;
  readonly rowStatus: Int32Array;
}

export interface Solution {
  readonly objective: number;
  /** Proved lower bound: the objective itself for a linear programme. */
  readonly bound: number;
  readonly x: Float64Array;
  /** Change of the objective per unit of each row's right side; empty for a whole-number programme. */
  readonly rowPrice: Float64Array;
  /** To start another programme from; of a linear programme only. */
  readonly basis: Basis | null;
}

export interface SolveOptions {
  /** Whole numbers are asked for. */
  readonly whole?: { readonly mipGap: number };
  /** Where the simplex begins. */
  readonly start?: Basis;
}

let highs: Promise<Highs> | null = null;
/** HiGHS as WebAssembly, loaded once. (Its CommonJS build: the ESM one cannot be read through a TypeScript loader.) */
function loadHighs(): Promise<Highs> {
  const load = createRequire(import.meta.url)('highs') as () => Promise<Highs>;
  highs ??= load();
  return highs;
}

/** Many times what the largest clinic needs: a simplex that goes round in circles ends, by no clock. */
const MOST_ITERATIONS = 2_000_000;
/** Primal simplex is two to three times faster than dual on these assignment programmes (tests/bench). */
const STRATEGIES = { usual: 4, second: 1 };

/**
 * Solve to optimality, reproducibly: fixed seed, one thread (all this build has), no clock in any stopping rule. What
 * the usual way cannot solve is tried once more by another; a solver that broke down is loaded anew first.
 */
export async function solveHere(p: Programme, options: SolveOptions = {}): Promise<Solution> {
  // Nobody to plan for, or everybody settled before: the solver has a status of its own for that, and no plan.
  if (p.columns === 0)
    return {
      objective: 0,
      bound: 0,
      x: new Float64Array(),
      rowPrice: new Float64Array(options.whole ? 0 : p.rows),
      basis: null,
    };
  try {
    return await solveOnce(STRATEGIES.usual, p, options);
  } catch (error) {
    if (!(error instanceof DoorpostError)) highs = null;
    return solveOnce(STRATEGIES.second, p, { whole: options.whole }).catch((again) => {
      if (!(again instanceof DoorpostError)) highs = null;
      throw again;
    });
  }
}

let solve: (p: Programme, options: SolveOptions) => Promise<Solution> = solveHere;
/** Another place to solve in, see solve-aside.ts. */
export function solveBy(way: typeof solve): void {
  solve = way;
}
export const solveProgramme = (p: Programme, options: SolveOptions = {}): Promise<Solution> =>
  solve(p, options);

async function solveOnce(
  simplexStrategy: number,
  p: Programme,
  { whole, start }: SolveOptions,
): Promise<Solution> {
  const solver = await loadHighs();
  const data: ModelData = {
    numCols: p.columns,
    numRows: p.rows,
    colCost: p.cost,
    colLower: new Float64Array(p.columns),
    colUpper: p.upper,
    rowLower: p.rowLower,
    rowUpper: p.rowUpper,
    matrix: {
      format: 'csc',
      numRows: p.rows,
      numCols: p.columns,
      starts: p.starts,
      indices: p.indices,
      values: p.values,
    },
    ...(whole ? { integrality: new Array(p.columns).fill(solver.constants.variableType.integer) } : {}),
  };
  const model = solver.createModel(data);
  try {
    model.options.set({ output_flag: false, random_seed: 1 });
    model.options.set({ simplex_iteration_limit: MOST_ITERATIONS });
    if (!whole) model.options.set({ solver: 'simplex', simplex_strategy: simplexStrategy });
    else model.options.set({ mip_rel_gap: whole.mipGap, mip_abs_gap: 1e-6, mip_max_nodes: 500 });
    if (start) model.setBasis(start as BasisInput);
    model.run();
    const status = model.getModelStatus();
    const { optimal, solutionLimit, iterationLimit } = solver.constants.modelStatus;
    if (status !== optimal && !(whole && (status === solutionLimit || status === iterationLimit))) {
      throw new DoorpostError(
        'plan-not-solved',
        `The planning solver stopped without a plan (status ${status}).`,
      );
    }
    const { colValue, rowDual } = model.getSolution();
    const objective = model.getObjectiveValue();
    const bound = whole ? Number(model.info.get('mip_dual_bound')) : objective;
    return {
      objective,
      bound,
      x: colValue,
      rowPrice: whole ? new Float64Array() : rowDual,
      basis: whole ? null : model.getBasis(),
    };
  } finally {
    disposed(model);
  }
}

/** A solver that broke down cannot even be tidied up; what it said first is what counts. */
function disposed(model: { dispose(): void }): void {
  try {
    model.dispose();
  } catch {
    highs = null;
  }
}
