import { describe, expect, test } from 'vitest';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { simulateChild } from '../../src/growth/prediction/simulate-child.js';
import type { ConditionId } from '../../src/records/records.js';
import { randomStream } from '../../src/statistics/random-stream.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

/*
 * Two feet that grow unlike (hemiplegia, one clubfoot): neither may be expected to do as the other does. Children are
 * drawn from the model; the right foot gains a share of what the left one does. Nothing outside the code says what an
 * affected foot's pace is: 0.7 is worse than most (from memory).
 */
const CHILDREN = 100;
const VISITS_BEFORE_YEARS = [3.5, 3, 2.5, 2, 1.5, 1, 0.5, 0];
const ERROR_MM = 2;
const SMALLER_MM = 3;
const model = loadGrowthModel();

interface Pair {
  readonly sex: 'male' | 'female';
  readonly age: number;
  readonly readings: ReturnType<typeof reading>[];
  readonly inAYear: Readonly<Record<'left' | 'right', number>>;
}

function drawn(seed: number, pace: number): Pair {
  const chance = randomStream(seed);
  const sex = seed % 2 ? 'male' : 'female';
  const age = 6.5 + 5 * chance.uniform();
  const ages = [...VISITS_BEFORE_YEARS.map((years) => age - years), age + 1];
  const left = simulateChild(model, sex, ['foot_length'], ages, chance).map((s) => s.foot_length as number);
  const right = left.map((mm) => left[0] - SMALLER_MM + pace * (mm - left[0]));
  const readings = ages
    .slice(0, -1)
    .flatMap((at, i) => [
      reading('foot_length', at, left[i] + ERROR_MM * chance.normal(), { side: 'left' }),
      reading('foot_length', at, right[i] + ERROR_MM * chance.normal(), { side: 'right' }),
    ]);
  return { sex, age, readings, inAYear: { left: left.at(-1) as number, right: right.at(-1) as number } };
}

/** Mean error a year ahead, mm (positive: foretold too long), and how often the truth lies in the middle 80 %. */
function errors(pace: number, condition: ConditionId) {
  const pairs = Array.from({ length: CHILDREN }, (_, i) => {
    const { sex, age, readings, inAYear } = drawn(400 + i, pace);
    const affectedSide = condition === 'none' ? 'none' : 'right';
    const posterior = posteriorOf(child(readings, { sex, conditions: [condition], affectedSide }), model);
    const of = (side: 'left' | 'right') => {
      const p = posterior.predict({ measure: 'foot_length', side }, [dayAt(age + 1)]);
      const inside = p.quantile(0.1)[0] < inAYear[side] && inAYear[side] < p.quantile(0.9)[0];
      return { error: p.mean[0] - inAYear[side], inside };
    };
    return { left: of('left'), right: of('right') };
  });
  const mean = (of: (p: (typeof pairs)[number]) => number) => pairs.reduce((s, p) => s + of(p), 0) / CHILDREN;
  return {
    sound: mean((p) => p.left.error),
    affected: mean((p) => p.right.error),
    inside: mean((p) => (Number(p.left.inside) + Number(p.right.inside)) / 2),
  };
}

describe('feet that grow unlike', () => {
  test.each(['hemiplegia', 'clubfoot'] as const)(
    '%s, one foot at 0.7 of the other: the sound one is not held back, nor the affected one taken to grow like it',
    (condition) => {
      const { sound, affected, inside } = errors(0.7, condition);
      // Standard error of the difference: 0.1 mm. At one pace for both, the sound foot was held back by 0.8 mm and the
      // affected one foretold 3.4 mm too long.
      expect(sound - errors(1, condition).sound).toBeGreaterThan(-0.3);
      expect(affected).toBeLessThan(2.3);
      expect(inside).toBeGreaterThan(0.76);
    },
  );

  test('where nobody recorded why, the sound foot is held back by half of what it was, 2 mm', () => {
    expect(errors(0.7, 'none').sound - errors(1, 'none').sound).toBeGreaterThan(-1);
  });

  test('feet that grow alike are foretold as well as the model promises', () => {
    for (const condition of ['none', 'hemiplegia'] as const) {
      const { sound, affected, inside } = errors(1, condition);
      // Two standard errors of the mean.
      expect(Math.abs(sound), condition).toBeLessThan(0.7);
      expect(Math.abs(affected), condition).toBeLessThan(0.7);
      expect(Math.abs(inside - 0.8), condition).toBeLessThan(0.08);
    }
  });
});
