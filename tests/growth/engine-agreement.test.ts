import { describe, expect, test } from 'vitest';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import type { Series } from '../../src/records/measure.js';
import { wideProduct } from '../../src/statistics/tensor/wide-products.js';
import { denseSample } from './dense-reference.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

/*
 * The engine's few quadrature points and wide products against the same model worked out the long way in float64.
 * Dates on which growth passes an allowance in 10, 50 and 90 % of the draws. Tolerance, in days: what another seed
 * moves the long way by at this number of draws, about 2 % of a date's spread.
 */
const DRAWS = 4000;
const STEP_DAYS = 28;
const STEPS = 34;
const model = loadGrowthModel();

interface Case {
  readonly age: number;
  readonly sex: 'male' | 'female';
  readonly scale: number;
  readonly visits: number;
}
const cases: Case[] = [
  { age: 2.5, sex: 'male', scale: 1, visits: 3 },
  { age: 6, sex: 'female', scale: 1.02, visits: 4 },
  { age: 10, sex: 'male', scale: 1.03, visits: 6 },
  { age: 11.5, sex: 'female', scale: 0.97, visits: 5 },
  { age: 13, sex: 'male', scale: 1, visits: 2 },
];

const series: Series[] = [
  { measure: 'foot_length', side: 'left' },
  { measure: 'knee_height', side: 'left' },
];
const allowanceMm = [8, 22];

function question({ age, sex, scale, visits }: Case) {
  const ages = Array.from({ length: visits }, (_, i) => age - 0.4 * (visits - 1 - i));
  const measurements = ages.flatMap((a, i) => [
    reading('foot_length', a, scale * (118 + 8 * a) + (i % 2), { side: 'left' }),
    reading('foot_length', a, scale * (119 + 8 * a), { side: 'right' }),
    reading('stature', a, scale * (760 + 62 * a) - 2 * (i % 2)),
  ]);
  return {
    input: child(measurements, { sex }),
    days: Array.from({ length: STEPS }, (_, i) => dayAt(age) + STEP_DAYS * i),
  };
}

/** Days until each chance of having passed any allowance, straight between the days drawn; Infinity where not reached. */
function dates(paths: readonly Float64Array[], chances: readonly number[]): number[] {
  const passed: number[] = [];
  for (let i = 0; i < DRAWS; i++) {
    const first = paths.map((path, s) => {
      const row = i * STEPS;
      for (let j = 1; j < STEPS; j++) {
        const over = path[row + j] - path[row] - allowanceMm[s];
        const before = path[row + j - 1] - path[row] - allowanceMm[s];
        if (over > 0) return STEP_DAYS * (j - 1 + (over === before ? 0 : -before / (over - before)));
      }
      return Infinity;
    });
    passed.push(Math.min(...first));
  }
  passed.sort((a, b) => a - b);
  return chances.map((p) => passed[Math.floor(p * DRAWS)]);
}

const CHANCES = [0.1, 0.5, 0.9];
const differences = cases.map((c) => {
  const { input, days } = question(c);
  const posterior = posteriorOf(input, model);
  const engine = dates(posterior.sample(series, days, DRAWS, 3), CHANCES);
  const long = dates(denseSample(input, model, series, days, DRAWS, 4), CHANCES);
  const width = long[2] - long[0];
  return { c, by: engine.map((d, k) => (Number.isFinite(long[k]) ? d - long[k] : 0)), width };
});

describe('the engine against the same model worked out the long way', () => {
  test.each(differences)('$c.sex of $c.age years: within 4 % of the spread of the date', ({ by, width }) => {
    const allowed = 2 + 0.04 * (Number.isFinite(width) ? width : 400);
    for (const days of by) expect(Math.abs(days)).toBeLessThan(allowed);
  });

  test('speed makes no date later: on average over the children within 3 days', () => {
    for (let k = 0; k < CHANCES.length; k++) {
      const mean = differences.reduce((sum, d) => sum + d.by[k], 0) / differences.length;
      expect(mean).toBeLessThan(3);
    }
  });
});

test('the same bits on every run, and a child alone or after others has the same answer', () => {
  const { input, days } = question(cases[2]);
  const once = posteriorOf(input, model).sample(series, days, 500, 9);
  posteriorOf(question(cases[0]).input, model).sample(series, days.slice(0, 9), 300, 2);
  const again = posteriorOf(input, model).sample(series, days, 500, 9);
  again.forEach((path, s) => {
    expect(path).toEqual(once[s]);
  });
});

test('a wide product in single precision against float64: within 1e-5 of its size', () => {
  const [rows, inner, columns] = [70, 45, 130];
  const value = (i: number) => Math.sin(1 + i * 1.7);
  const a = Float32Array.from({ length: rows * inner }, (_, i) => value(i));
  const b = Float32Array.from({ length: inner * columns }, (_, i) => 3 * value(i + 7));
  const product = wideProduct({ a, b, rows, inner, columns });
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      let sum = 0;
      let size = 0;
      for (let k = 0; k < inner; k++) {
        sum += a[i * inner + k] * b[k * columns + j];
        size += Math.abs(a[i * inner + k] * b[k * columns + j]);
      }
      expect(Math.abs(product[i * columns + j] - sum)).toBeLessThan(1e-5 * size);
    }
});
