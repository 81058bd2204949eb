import { afterAll, describe, expect, test } from 'vitest';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { caseloadPassage, type PassageQuestion } from '../../src/growth/prediction/caseload-passage.js';
import { tensorBackend, useTensorBackend } from '../../src/statistics/tensor/tensor-backend.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

/*
 * The tensor path against the float64 path: same seed, same normals, so that only arithmetic differs. Tolerance:
 * chance within 0.005 (one draw of 240), the day the chance reaches one half within 3 days.
 */
const DRAWS = 240;
const TOLERANCE = 0.005;
const model = loadGrowthModel();

const question = (age: number, scale: number, sex: 'male' | 'female'): PassageQuestion => {
  const years = [age - 1.1, age - 0.5, age];
  const measurements = years.flatMap((a, i) => [
    reading('foot_length', a, scale * (118 + 8 * a), { side: 'left' }),
    reading('calf_girth', a, scale * (165 + 10 * a) + i, { side: 'left' }),
    reading('stature', a, scale * (760 + 62 * a)),
  ]);
  return {
    input: child(measurements, { sex }),
    series: [
      { measure: 'foot_length', side: 'left' },
      { measure: 'knee_height', side: 'left' },
      { measure: 'calf_girth', side: 'left' },
    ],
    allowanceMm: [9, 25, 20],
    castDay: dayAt(age - 0.5),
    fromDay: dayAt(age),
    days: [dayAt(age - 0.5), ...Array.from({ length: 34 }, (_, i) => dayAt(age) + 28 * i)],
  };
};
const caseload = [
  question(2.5, 1, 'male'),
  question(6, 1, 'female'),
  question(10, 1.03, 'male'),
  question(12.5, 0.97, 'female'),
];

/** The same question answered in float64 through the contract. */
function plain(q: PassageQuestion, seed: number): Float64Array {
  const paths = posteriorOf(q.input, model).sample(q.series, q.days, DRAWS, seed);
  const width = q.days.length;
  const cast = q.days.indexOf(q.castDay);
  const chance = new Float64Array(width);
  for (let i = 0; i < DRAWS; i++) {
    const first = q.days.findIndex(
      (d, j) =>
        d >= q.fromDay && paths.some((p, s) => p[i * width + j] - p[i * width + cast] > q.allowanceMm[s]),
    );
    for (let j = first < 0 ? width : first; j < width; j++) chance[j] += 1 / DRAWS;
  }
  return chance;
}

const half = (q: PassageQuestion, chance: Float64Array) => {
  const j = chance.findIndex((c) => c >= 0.5);
  return j <= 0 ? j : q.days[j - 1] + (28 * (0.5 - chance[j - 1])) / (chance[j] - chance[j - 1]);
};

describe('tensors agree with float64 on outgrown chances and dates', () => {
  const expected = caseload.map((q) => plain(q, 11));
  afterAll(async () => void (await useTensorBackend('wasm')));
  test.each(['native', 'wasm', 'cpu'] as const)('%s backend', async (backend) => {
    if (!(await useTensorBackend(backend))) {
      console.log(`skipped: the ${backend} tensor backend is not installed`);
      return;
    }
    const { backend: used, chance } = await caseloadPassage(caseload, model, DRAWS, 11);
    expect(used).toBe(backend);
    caseload.forEach((q, c) => {
      const ours = chance[c] as Float64Array;
      ours.forEach((v, j) => {
        expect(Math.abs(v - expected[c][j])).toBeLessThan(TOLERANCE);
      });
      expect(expected[c][q.days.length - 1]).toBeGreaterThan(0.5);
      expect(Math.abs(half(q, ours) - half(q, expected[c]))).toBeLessThan(3);
    });
  });
  test('says which backend it runs on', async () => {
    expect(['native', 'wasm', 'cpu']).toContain(await tensorBackend());
  });
  test('a child without a known reading has no chance', async () => {
    const { chance } = await caseloadPassage([{ ...caseload[0], input: child([]) }], model, 96, 1);
    expect(chance).toEqual([null]);
  });
});
