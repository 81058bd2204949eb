import { createRequire } from 'node:module';
import type { Highs, ModelData } from 'highs';
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

export interface Solution {
  readonly objective: number;
  /** Proved lower bound: the objective itself for a linear programme. */
  readonly bound: number;
  readonly x: Float64Array;
  /** Change of the objective per unit of each row's right side; empty for a whole-number programme. */
  readonly rowPrice: Float64Array;
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
export async function solveProgramme(p: Programme, whole?: { mipGap: number }): Promise<Solution> {
  // Nobody to plan for, or everybody settled before: the solver has a status of its own for that, and no plan.
  if (p.columns === 0)
    return { objective: 0, bound: 0, x: new Float64Array(), rowPrice: new Float64Array(whole ? 0 : p.rows) };
  try {
    return await solveBy(STRATEGIES.usual, p, whole);
  } catch (error) {
    if (!(error instanceof DoorpostError)) highs = null;
    return solveBy(STRATEGIES.second, p, whole).catch((again) => {
      if (!(again instanceof DoorpostError)) highs = null;
      throw again;
    });
  }
}

async function solveBy(
  simplexStrategy: number,
  p: Programme,
  whole: { mipGap: number } | undefined,
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
    return { objective, bound, x: colValue, rowPrice: whole ? new Float64Array() : rowDual };
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
