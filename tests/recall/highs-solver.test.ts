import { expect, it } from 'vitest';
import { type Programme, solveHere, solveProgramme } from '../../src/recall/level/highs-solver.js';
import { solveAside } from '../../src/recall/level/solve-aside.js';

/** min x + 2y, x + y >= at least, x <= 3, y <= 4. By hand: at least 5 gives x 3, y 2, cost 7; above 7 there is none. */
const programme = (atLeast: number, indices = [0, 0]): Programme => ({
  columns: 2,
  rows: 1,
  cost: new Float64Array([1, 2]),
  upper: new Float64Array([3, 4]),
  rowLower: new Float64Array([atLeast]),
  rowUpper: new Float64Array([Number.POSITIVE_INFINITY]),
  starts: new Int32Array([0, 1, 2]),
  indices: new Int32Array(indices),
  values: new Float64Array([1, 1]),
});

it('without a plan there could be, or with a programme that is none, says so and solves the next', async () => {
  await expect(solveProgramme(programme(8))).rejects.toMatchObject({ code: 'plan-not-solved' });
  await expect(solveProgramme(programme(5, [7, -3]))).rejects.toThrow();
  const { objective, x } = await solveProgramme(programme(5));
  expect(objective).toBeCloseTo(7, 9);
  expect([...x]).toEqual([3, 2]);
});

it('is solved in a thread as it is here, and is refused there as here, while this one goes on', async () => {
  const end = solveAside();
  let turns = 0;
  const turn = setInterval(() => turns++, 5);
  try {
    expect(await solveProgramme(programme(5))).toEqual(await solveHere(programme(5)));
    expect(turns).toBeGreaterThan(2);
    await expect(solveProgramme(programme(8))).rejects.toMatchObject({ code: 'plan-not-solved' });
  } finally {
    clearInterval(turn);
    await end();
  }
});
